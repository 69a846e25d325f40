import type { IsClear } from './splitLines.ts';

/** Whether a place of a level or upright run keeps clear of every other line and of every terminal. */
export function clearOf(
  flats: readonly { y: number; from: number; to: number }[],
  uprights: readonly { x: number; y: number; end: number }[],
): IsClear {
  return ([x, y], isFlat, room) =>
    !uprights.some((u) => Math.abs(u.x - x) < room && Math.abs(u.y - y) < room) &&
    (isFlat
      ? !uprights.some((u) => Math.abs(u.x - x) < room && y > Math.min(u.y, u.end) - room && y < Math.max(u.y, u.end) + room)
      : !flats.some((f) => Math.abs(f.y - y) < room && x > f.from - room && x < f.to + room));
}
