import { nothing, svg } from 'lit';
import { symbolOf } from '../../src/report/symbols/index.ts';
import type { Shape } from '../../src/report/symbols/shape.ts';

/** A part's symbol about its middle; contacts as they stand. `turned`: upside down, its letters not. */
export function symbolShapes(name: string, stand: 'open' | 'closed', turned = false) {
  const shapes = symbolOf(name).shapes.filter((s) => s.when === undefined || s.when === stand);
  return svg`<g transform=${turned ? 'scale(1 -1)' : nothing}>${shapes.filter((s) => s.draw !== 'text').map(shape)}</g>${shapes.filter((s) => s.draw === 'text').map(shape)}`;
}

function shape(s: Shape) {
  if (s.draw === 'path')
    return svg`<path class="line fill-${s.fill}" d=${s.d} stroke-width=${s.line} stroke-dasharray=${s.dash ?? nothing}></path>`;
  if (s.draw === 'circle') return svg`<circle class="line fill-${s.fill}" cx=${s.x} cy=${s.y} r=${s.r} stroke-width=${s.line}></circle>`;
  return svg`<text class="inside" x=${s.x} y=${s.y} font-size=${s.size} font-weight=${s.weight} text-anchor="middle">${s.text}</text>`;
}
