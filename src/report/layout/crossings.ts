import type { Crossing, GroundBar, PlacedWire, Point } from './layout.ts';

type Run = { readonly wire: number; readonly at: number; readonly from: number; readonly to: number };

/** Where the upright of one net crosses the horizontal of another: the upright passes over it. Also where a line crosses a ground bar (under: -1). */
export function crossingsOf(wires: readonly PlacedWire[], bars: readonly GroundBar[]): readonly Crossing[] {
  const flat: Run[] = [];
  const upright: Run[] = [];
  for (const [wire, { points }] of wires.entries())
    for (let k = 0; k + 1 < points.length; k++) {
      const [[x0, y0], [x1, y1]] = [points[k] as Point, points[k + 1] as Point];
      if (y0 === y1) flat.push({ wire, at: y0, from: Math.min(x0, x1), to: Math.max(x0, x1) });
      else upright.push({ wire, at: x0, from: Math.min(y0, y1), to: Math.max(y0, y1) });
    }
  for (const bar of bars) flat.push({ wire: -1, at: bar.y, from: bar.x1, to: bar.x2 });
  const found: Crossing[] = [];
  for (const f of flat)
    for (const u of upright)
      if (f.from < u.at && u.at < f.to && u.from < f.at && f.at < u.to && (f.wire < 0 || wires[f.wire]!.net !== wires[u.wire]!.net))
        found.push({ x: u.at, y: f.at, over: u.wire, under: f.wire });
  return found;
}
