import type { Frame, Link, PlacedPole, PlacedWire } from './layout.ts';

/** Pieces of one part further apart than this are not linked: their ids say that they belong together. */
const near_px = 150;

/** Dashed lines between neighbouring pieces of one part, where the way between them is free. */
export function linksOf(poles: readonly PlacedPole[], frames: readonly Frame[], wires: readonly PlacedWire[]): readonly Link[] {
  const links: Link[] = [];
  const isFramed = (p: PlacedPole) =>
    frames.some(
      (f) => f.part === p.part && p.x >= f.box.x && p.x <= f.box.x + f.box.width && p.y >= f.box.y && p.y <= f.box.y + f.box.height,
    );
  const byPart = new Map<string, PlacedPole[]>();
  for (const p of poles) if (!isFramed(p)) byPart.set(p.part, [...(byPart.get(p.part) ?? []), p]);
  for (const [part, pieces] of byPart) {
    const across = [...pieces].sort((a, b) => a.x - b.x || a.y - b.y);
    for (let k = 0; k + 1 < across.length; k++) {
      const [a, b] = [across[k]!, across[k + 1]!];
      if (a.y !== b.y || b.x - a.x > near_px) continue;
      const [from, to] = [a.box.x + a.box.width, b.box.x];
      const isFree =
        !poles.some((p) => p !== a && p !== b && p.y === a.y && p.x > a.x && p.x < b.x) &&
        !wires.some((w) =>
          w.points.some(([x0, y0], i) => {
            const next = w.points[i + 1];
            return (
              next !== undefined && x0 === next[0] && x0 > from && x0 < to && Math.min(y0, next[1]) < a.y && Math.max(y0, next[1]) > a.y
            );
          }),
        );
      if (isFree)
        links.push({
          part,
          points: [
            [from, a.y],
            [to, b.y],
          ],
        });
    }
  }
  return links;
}
