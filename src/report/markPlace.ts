import { terminalPoints } from './drawn.ts';
import type { Layout, Point } from './layout/layout.ts';

/** Middle of what a mark names on a drawing, and how far it reaches: a symbol, pin, terminal, the longest run of a wire, a ground bar. */
export function markPlace(layout: Layout, id: string): { readonly x: number; readonly y: number; readonly r: number } | undefined {
  const pole = layout.poles.find((p) => p.id === id) ?? layout.poles.find((p) => p.part === id);
  if (pole) return { x: pole.x, y: pole.y, r: 27 };
  const pin = layout.pins.find((p) => p.id === id) ?? layout.pins.find((p) => p.part === id);
  if (pin) return { x: pin.x, y: pin.y, r: 15 };
  const terminal = terminalPoints(layout).get(id);
  if (terminal) return { x: terminal[0], y: terminal[1], r: 15 };
  const run = longestRun(layout, id);
  if (run) return { x: (run[0][0] + run[1][0]) / 2, y: (run[0][1] + run[1][1]) / 2, r: 15 };
  const bar = layout.bars.find((b) => b.part === id || b.id === id);
  return bar && { x: bar.sign?.[0] ?? (bar.x1 + bar.x2) / 2, y: bar.y, r: 15 };
}

function longestRun(layout: Layout, wire: string): readonly [Point, Point] | undefined {
  const runs = layout.wires
    .filter((w) => w.wires.includes(wire))
    .flatMap(({ points }) => points.slice(1).map((b, k) => [points[k]!, b] as const));
  const length = ([a, b]: readonly [Point, Point]) => Math.hypot(b[0] - a[0], b[1] - a[1]);
  return runs.sort((a, b) => length(b) - length(a))[0];
}

/** A number in its disc beside the place it belongs to, clear of the symbol; numbers of one place go side by side. */
export function numberSpot(layout: Layout, id: string, before: number): Point | undefined {
  const at = markPlace(layout, id);
  return at && [Math.max(16, at.x - at.r - 4 - 26 * before), Math.max(16, at.y - 10)];
}
