import { nothing, svg } from 'lit';
import type { CrossingDrawn, Ribbon } from '../../src/report/drawn.ts';
import type { Layout } from '../../src/report/layout/layout.ts';
import { ramp } from '../../src/report/ribbon.ts';
import { chevron } from '../../src/report/symbols/chevron.ts';
import { pathOf } from './svgPath.ts';

/** Wires in plain ink, each crossing with a gap in the lower one. */
export function plainWires({ wires }: Layout, crossings: readonly CrossingDrawn[]) {
  return svg`${wires.map((w) => svg`<path class="plain" d=${pathOf(w.points)}></path>`)}${crossings.map((c) => {
    const [dx, dy] = c.overLies ? [0, 5] : [5, 0];
    const [ox, oy] = c.overLies ? [6, 0] : [0, 6];
    return svg`<path class="gap" stroke-width="9" d="M${c.x - dx} ${c.y - dy}L${c.x + dx} ${c.y + dy}"></path><path class="plain" d="M${c.x - ox} ${c.y - oy}L${c.x + ox} ${c.y + oy}"></path>`;
  })}`;
}

/** Wires as ribbons: casing of what changed, the way of the chosen load, edges, cores, crossings, chevrons. */
export function liveWires(ribbons: readonly Ribbon[], crossings: readonly CrossingDrawn[]) {
  const changed = ribbons.filter((r) => r.changed);
  const onWay = ribbons.filter((r) => r.onWay);
  return svg`
    <g class="casing">${changed.map((r) => svg`<path d=${r.d} stroke-width="15"></path>`)}</g>
    <g class="way">${onWay.map((r) => svg`<path d=${r.d} stroke-width=${r.width + 11}></path>`)}</g>
    <g class="edges">${ribbons.map((r) => (r.potential ? svg`<path d=${r.d} stroke-width=${r.width + 2.4}></path>` : nothing))}</g>
    <g class="cores">${ribbons.map((r, k) => core(r, k))}</g>
    ${crossings.map((c) => crossing(c, ribbons))}
    <g class="chevrons">${ribbons.map((r) => r.chevrons.map((c) => svg`<path transform="translate(${c.x} ${c.y}) rotate(${c.turn})" d=${chevron}></path>`))}</g>`;
}

function core(r: Ribbon, k: number) {
  if (!r.potential) return svg`<path class="floating" d=${r.d}></path>`;
  const [from, to] = r.potential;
  const level = `v${Math.round(from * 2)}`;
  if (from === to) return svg`<path class=${level} d=${r.d} stroke-width=${r.width} stroke=${ramp(from)}></path>`;
  const [a, b] = [r.points[0]!, r.points.at(-1)!];
  return svg`<linearGradient id="blend${k}" gradientUnits="userSpaceOnUse" x1=${a[0]} y1=${a[1]} x2=${b[0]} y2=${b[1]}><stop offset="0" stop-color=${ramp(from)}></stop><stop offset="1" stop-color=${ramp(to)}></stop></linearGradient>
    <path class=${level} d=${r.d} stroke-width=${r.width} stroke="url(#blend${k})"></path>`;
}

/** The lower wire is broken, the upper one drawn once more over the gap. */
function crossing(c: CrossingDrawn, ribbons: readonly Ribbon[]) {
  const [over, under] = [ribbons[c.over], ribbons[c.under]];
  if (!over || !under) return nothing;
  const half = (over.width + 2.4) / 2 + 3.5;
  const [dx, dy] = c.overLies ? [0, half] : [half, 0];
  const [ox, oy] = c.overLies ? [half, 0] : [0, half];
  const d = `M${c.x - ox} ${c.y - oy}L${c.x + ox} ${c.y + oy}`;
  return svg`<path class="gap" stroke-width=${under.width + 4.4} d="M${c.x - dx} ${c.y - dy}L${c.x + dx} ${c.y + dy}"></path>${
    over.potential
      ? svg`<path class="edge" stroke-width=${over.width + 2.4} d=${d}></path><path class="solid" stroke=${ramp(over.potential[0])} stroke-width=${over.width} d=${d}></path>`
      : svg`<path class="floating" d=${d}></path>`
  }`;
}
