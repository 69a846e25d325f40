import { nothing, svg } from 'lit';
import type { Layout } from '../../src/report/layout/layout.ts';
import { pathOf } from './svgPath.ts';

/** Boxes of parts with several pieces, and what links them. */
export function frames({ frames }: Layout) {
  return svg`${frames.map(
    (f) => svg`<rect class=${f.isKey ? 'frame key' : 'frame'} x=${f.box.x} y=${f.box.y} width=${f.box.width} height=${f.box.height}></rect>
    ${f.link ? svg`<path class="link" d="M${f.link[0][0]} ${f.link[0][1]}L${f.link[1][0]} ${f.link[1][1]}"></path>` : nothing}`,
  )}`;
}

/** Links, ground bars with their signs, joints and pins. */
export function fixtures({ dots, bars, links, pins }: Layout) {
  return svg`
    ${links.map((l) => svg`<path class="link" d=${pathOf(l.points)}></path>`)}
    ${bars.map(
      (b) =>
        svg`<path class="bar" d=${b.pieces.map(([from, to]) => `M${from} ${b.y}H${to}`).join('')}></path>${
          b.sign
            ? svg`<path class="ground" d="M${b.sign[0]} ${b.y}V${b.sign[1] - 5}M${b.sign[0] - 14} ${b.sign[1] - 5}h28M${b.sign[0] - 9} ${b.sign[1]}h18M${b.sign[0] - 4} ${b.sign[1] + 5}h8"></path>`
            : nothing
        }`,
    )}
    ${dots.map(([x, y]) => svg`<circle class="dot" cx=${x} cy=${y} r="4.2"></circle>`)}
    ${pins.map((p) => svg`<rect class="pin" x=${p.x - (p.flat ? 3.5 : 5.5)} y=${p.y - (p.flat ? 5.5 : 3.5)} width=${p.flat ? 7 : 11} height=${p.flat ? 11 : 7}></rect>`)}`;
}

export function labels({ labels }: Layout) {
  const label = (l: Layout['labels'][number]) =>
    svg`<text class="l-${l.role}" x=${l.x} y=${l.y} font-size=${l.size} font-weight=${l.weight}>${l.text}</text>`;
  return svg`${labels.filter((l) => l.role !== 'rail').map(label)}<g class="rails">${labels.filter((l) => l.role === 'rail').map(label)}</g>`;
}

/** What the pointer can hit: wires are thin, so their reach is wider than they are. */
export function hitAreas({ wires, poles }: Layout) {
  return svg`<g class="hits">${wires.map((w, k) => (w.wires.length > 0 ? svg`<path d=${pathOf(w.points)} data-wire=${k}></path>` : nothing))}
    ${poles.map((p) => svg`<rect data-pole=${p.id} x=${Math.min(p.box.x, p.x - 20)} y=${p.box.y - 2} width=${Math.max(p.box.width, 40)} height=${Math.max(p.box.height + 4, 40)}></rect>`)}</g>`;
}
