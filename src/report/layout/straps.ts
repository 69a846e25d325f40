import { sheet } from './heightsOnSheet.ts';
import type { GroundBar, PlacedPin, PlacedWire, Point } from './layout.ts';
import type { Nets } from './nets.ts';

/** Straps between ground bars, each on a level of its own under them. */
export function drawnStraps(
  nets: Nets,
  bars: readonly GroundBar[],
  top: number,
): { wires: readonly PlacedWire[]; pins: readonly PlacedPin[]; bottom: number } {
  const wires: PlacedWire[] = [];
  const pins: PlacedPin[] = [];
  const barOf = (net: number) => bars.find((b) => b.terminal === nets.nets[net]!.bar?.vertex);
  let count = 0;
  for (const strap of nets.straps) {
    const [a, b] = [barOf(strap.a), barOf(strap.b)].sort((m, n) => (m?.x1 ?? 0) - (n?.x1 ?? 0));
    if (!a || !b) continue;
    count++;
    const y = top + 34 + (count - 1) * sheet.strap;
    const shift = 5 * count;
    const points: Point[] = [
      [a.x2 - shift, a.y],
      [a.x2 - shift, y],
      [b.x1 + shift, y],
      [b.x1 + shift, b.y],
    ];
    const ends = new Set(strap.edges.flatMap((e) => [e.from, e.to]));
    for (const mark of nets.nets[strap.a]!.edges.concat(nets.nets[strap.b]!.edges))
      if (mark.isPin && nets.nets.every((n) => n.bar?.part?.id !== mark.part) && (ends.has(mark.from) || ends.has(mark.to)))
        pins.push({ id: mark.id, part: mark.part, x: Math.round((a.x2 + b.x1) / 2), y, flat: true });
    // A strap in two lengths is told by its first; one that begins at a battery post has that post's volts, not the bar's.
    const first = strap.edges[0]!;
    const isForward = nets.netOf(first.from) === nets.netOf(a.terminal);
    wires.push({
      net: strap.a,
      points,
      from: isForward ? first.from : first.to,
      to: isForward ? first.to : first.from,
      wires: [...new Set(strap.edges.filter((e) => !e.isPin).map((e) => e.part))],
      carries: [{ element: first.element, sign: isForward === (first.sense === 1) ? 1 : -1 }],
    });
  }
  return { wires, pins, bottom: top + (count > 0 ? 20 + count * sheet.strap : 0) };
}
