import { crossingsOf, type Ribbon } from './drawn.ts';
import type { Layout } from './layout/layout.ts';
import { ramp } from './ribbon.ts';
import { element, lineOf, rounded } from './svgText.ts';
import { chevron } from './symbols/chevron.ts';

/** Wires in plain ink, 2 px. */
export function plainWires(layout: Layout): readonly string[] {
  const crossings = crossingsOf(layout).map((c) => {
    const [dx, dy] = c.overLies ? [6, 0] : [0, 6];
    const [gx, gy] = c.overLies ? [0, 5] : [5, 0];
    return (
      element('path', {
        class: gapClass(layout, c.x, c.y),
        'stroke-width': 4,
        d: lineOf([
          [c.x - gx, c.y - gy],
          [c.x + gx, c.y + gy],
        ]),
      }) +
      element('path', {
        class: 'plain',
        d: lineOf([
          [c.x - dx, c.y - dy],
          [c.x + dx, c.y + dy],
        ]),
      })
    );
  });
  return [...layout.wires.map((w) => element('path', { class: 'plain', d: lineOf(w.points) })), ...crossings];
}

function gapClass(layout: Layout, x: number, y: number): string {
  return layout.frames.some(({ isKey, box: b }) => isKey && x > b.x && x < b.x + b.width && y > b.y && y < b.y + b.height)
    ? 'gap onkey'
    : 'gap';
}

/** Wires as ribbons of potential and current, with what the fault changed and the chosen load's way under them. */
export function liveWires(layout: Layout, ribbons: readonly Ribbon[]): readonly string[] {
  const crossings = crossingsOf(layout).flatMap((c) => {
    const [above, below] = [ribbons[c.over], ribbons[c.under]];
    if (!above || !below) return [];
    const half = (above.width + 2.4) / 2 + 3.5;
    const [ox, oy] = c.overLies ? [half, 0] : [0, half];
    const [gx, gy] = c.overLies ? [0, half] : [half, 0];
    const d = lineOf([
      [c.x - ox, c.y - oy],
      [c.x + ox, c.y + oy],
    ]);
    const again = above.potential
      ? element('path', { class: 'edge', 'stroke-width': above.width + 2.4, d }) +
        element('path', { class: 'core', 'stroke-width': above.width, stroke: ramp(above.potential[0]), d })
      : element('path', { class: 'floating', d });
    return [
      element('path', {
        class: gapClass(layout, c.x, c.y),
        'stroke-width': below.width + 4.4,
        d: lineOf([
          [c.x - gx, c.y - gy],
          [c.x + gx, c.y + gy],
        ]),
      }) + again,
    ];
  });
  return [
    ...ribbons.flatMap((r) => (r.changed ? [element('path', { class: 'casing', d: r.d })] : [])),
    ...ribbons.flatMap((r) => (r.onWay ? [element('path', { class: 'way', 'stroke-width': r.width + 11, d: r.d })] : [])),
    ...ribbons.flatMap((r) => (r.potential ? [element('path', { class: 'edge', 'stroke-width': r.width + 2.4, d: r.d })] : [])),
    ...ribbons.map(core),
    ...crossings,
    ...ribbons.flatMap((r) =>
      r.chevrons.map((c) =>
        element('path', { class: 'chevron', transform: `translate(${rounded(c.x)} ${rounded(c.y)}) rotate(${c.turn})`, d: chevron }),
      ),
    ),
  ];
}

function core(r: Ribbon, k: number): string {
  if (!r.potential) return element('path', { class: 'floating', d: r.d });
  const [from, to] = r.potential;
  if (from === to) return element('path', { class: 'core', 'stroke-width': r.width, stroke: ramp(from), d: r.d });
  const [a, b] = [r.points[0]!, r.points.at(-1)!];
  const stops = `<stop offset="0" stop-color="${ramp(from)}"/><stop offset="1" stop-color="${ramp(to)}"/>`;
  return (
    element('linearGradient', { id: `blend${k}`, gradientUnits: 'userSpaceOnUse', x1: a[0], y1: a[1], x2: b[0], y2: b[1] }, stops) +
    element('path', { class: 'core', 'stroke-width': r.width, stroke: `url(#blend${k})`, d: r.d })
  );
}
