import type { Crossing, PlacedWire, Point } from './layout.ts';

type Run = { readonly wire: number; readonly at: number; readonly from: number; readonly to: number };

/** How far a bar keeps from a wire that passes it: half the widest ribbon and a gap. */
const clear_px = 9;

/** Where the upright of one net crosses the horizontal of another: the upright passes over it. */
export function crossingsOf(wires: readonly PlacedWire[]): readonly Crossing[] {
  const { flat, upright } = runsOf(wires);
  const found: Crossing[] = [];
  for (const f of flat)
    for (const u of upright)
      if (f.from < u.at && u.at < f.to && u.from < f.at && f.at < u.to && wires[f.wire]!.net !== wires[u.wire]!.net)
        found.push({ x: u.at, y: f.at, over: u.wire, under: f.wire });
  return found;
}

/** A horizontal from x1 to x2 without the places where uprights pass through it. */
export function brokenAt(wires: readonly PlacedWire[], x1: number, x2: number, y: number): readonly (readonly [number, number])[] {
  const passing = runsOf(wires).upright.filter((u) => u.at > x1 && u.at < x2 && u.from < y && y < u.to);
  const pieces: [number, number][] = [];
  let from = x1;
  for (const at of passing.map((u) => u.at).sort((a, b) => a - b)) {
    if (at - clear_px > from) pieces.push([from, at - clear_px]);
    from = at + clear_px;
  }
  if (from < x2) pieces.push([from, x2]);
  return pieces;
}

function runsOf(wires: readonly PlacedWire[]): { flat: readonly Run[]; upright: readonly Run[] } {
  const flat: Run[] = [];
  const upright: Run[] = [];
  for (const [wire, { points }] of wires.entries())
    for (let k = 0; k + 1 < points.length; k++) {
      const [[x0, y0], [x1, y1]] = [points[k] as Point, points[k + 1] as Point];
      if (y0 === y1) flat.push({ wire, at: y0, from: Math.min(x0, x1), to: Math.max(x0, x1) });
      else upright.push({ wire, at: x0, from: Math.min(y0, y1), to: Math.max(y0, y1) });
    }
  return { flat, upright };
}
