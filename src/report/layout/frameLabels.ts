import type { Circuit } from '../../circuit/circuit.ts';
import { clear, inside, type Line, local, type Spot } from './labelSpot.ts';
import type { Box, Layout } from './layout.ts';

/** Name of the part in the frame, terminals at its edges. */
export function frameLabels(
  circuit: Circuit,
  bare: Pick<Layout, 'wires' | 'poles'>,
  part: string,
  box: Box,
  place: (lines: readonly Line[], spots: readonly Spot[]) => boolean,
  placeOr: (lines: readonly Line[], spots: readonly Spot[]) => void,
): void {
  const own = bare.wires.filter((w) => w.inside === part && w.points.some(([x, y]) => inside(box, [x, y])));
  for (const w of own) {
    const [x, y] = w.points[0]!;
    const isTop = y === box.y;
    if (!isTop && y !== box.y + box.height) continue;
    const line: Line = { text: local(w.from), role: 'terminal', of: w.from, size: 14, weight: 700 };
    placeOr(
      [line],
      isTop
        ? [
            { x: x + clear, y: y - 9, side: 'right' },
            { x: x - clear, y: y - 9, side: 'left' },
            { x: x + clear, y: y + 9, side: 'right' },
          ]
        : [
            { x: x + clear, y: y - 10, side: 'right' },
            { x: x - clear, y: y - 10, side: 'left' },
          ],
    );
  }
  const name = circuit.parts.get(part);
  const title: Line = { text: part, role: 'id', of: part, size: 15, weight: 700 };
  const value: Line = { text: name?.name ?? name?.kind.title ?? '', role: 'frame', of: part, size: 14, weight: 500 };
  const middle = box.y + box.height / 2;
  const stands = bare.poles.filter((p) => p.part === part && inside(box, [p.x, p.y])).sort((a, b) => b.x - a.x);
  // Beside the frame, where no hang-tag's ring comes; else between its pieces.
  const spots: Spot[] = [
    { x: box.x + box.width + 6, y: middle, side: 'right' },
    { x: box.x + box.width + 6, y: box.y + 16, side: 'right' },
    { x: box.x + box.width + 6, y: box.y + box.height - 16, side: 'right' },
    { x: box.x - 6, y: middle, side: 'left' },
    ...stands.flatMap((p): Spot[] => [{ x: p.box.x + p.box.width + 6, y: p.y, side: 'right' }]),
    { x: box.x, y: box.y - 12, side: 'right' },
  ];
  if (!place([title, value], spots)) placeOr([title], spots);
}
