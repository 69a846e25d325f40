import type { Circuit } from '../../circuit/circuit.ts';
import type { Spot } from './labelSpot.ts';
import type { Layout, PlacedWire, Point } from './layout.ts';

/** One wire colour for each wire, on its longest straight run of 40 px or more. */
export function wireColours(circuit: Circuit, { wires }: Pick<Layout, 'wires'>): readonly (readonly [string, string, PlacedWire])[] {
  const seen = new Set<string>();
  const list: [string, string, PlacedWire][] = [];
  for (const wire of [...wires].sort((a, b) => longest(b) - longest(a))) {
    if (wire.wires.length !== 1) continue;
    const id = wire.wires[0]!;
    const base = id.replace(/[a-z]$/, '');
    const part = circuit.parts.get(id);
    const text = part?.kind.poles(part)[0]?.label;
    if (text === undefined || seen.has(base) || longest(wire) < 40) continue;
    seen.add(base);
    list.push([text, id, wire]);
  }
  return list;
}

function runs(wire: PlacedWire): readonly { a: Point; b: Point; length: number }[] {
  return wire.points
    .slice(1)
    .map((b, k) => ({ a: wire.points[k]!, b, length: Math.abs(b[0] - wire.points[k]![0]) + Math.abs(b[1] - wire.points[k]![1]) }));
}
const longest = (wire: PlacedWire) => Math.max(...runs(wire).map((r) => r.length));

/** Places along a wire, longest run first: beside an upright, over or under a level one. */
export function alongWire(wire: PlacedWire): readonly Spot[] {
  const spots: Spot[] = [];
  for (const { a, b, length } of [...runs(wire)].sort((m, n) => n.length - m.length)) {
    if (length < 40) break;
    for (const share of [0.5, 0.3, 0.7]) {
      const [x, y] = [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
      if (a[0] === b[0]) spots.push({ x: x + 8, y, side: 'right' }, { x: x - 8, y, side: 'left' });
      else spots.push({ x: x - 14, y: y - 13.5, side: 'right' }, { x: x - 14, y: y + 13.5, side: 'right' });
    }
  }
  return spots;
}
