import type { Heights } from './heights.ts';
import type { Nets, Piece } from './nets.ts';
import type { Rows, Unit } from './rows.ts';

/** Where an item is tied to a net: pieces that share the terminal there, and the terminal. */
export type Lead = { readonly net: number; readonly terminal: string; readonly members: readonly Piece[] };

/** What is placed as one: a stack of pieces in series, or a block side by side. */
export type Item = {
  readonly index: number;
  readonly unit: Unit | undefined;
  readonly pieces: readonly Piece[];
  readonly tops: readonly Lead[];
  readonly bottoms: readonly Lead[];
};

export type Items = {
  readonly items: readonly Item[];
  /** Items whose first upper end is on the net, file order. */
  readonly under: readonly (readonly Item[])[];
  /** Items that hold the battery or lead to it: they stand first, so that it is always found on the left. */
  readonly first: ReadonlySet<Item>;
  /** The item above each net that carries it in the order of columns. */
  readonly carrier: readonly (Item | undefined)[];
  /** Gap in which each net's horizontal runs: gap g lies under row g, -1 over all. */
  readonly gapOf: Int32Array;
  /** Lowest gap in which it could run. */
  readonly lowestGap: Int32Array;
};

/** Upper and lower terminal of a piece as it stands. */
export const topOf = (p: Piece, heights: Heights) => (heights.isTurned(p) ? p.to : p.from);
export const bottomOf = (p: Piece, heights: Heights) => (heights.isTurned(p) ? p.from : p.to);

/** Stacks pieces in series, and says which net hangs on which item. */
export function itemsOf(nets: Nets, heights: Heights, rows: Rows): Items {
  const uppers: Piece[][] = nets.nets.map(() => []);
  const lowers: Piece[][] = nets.nets.map(() => []);
  for (const p of nets.pieces) {
    uppers[heights.upper(p)]!.push(p);
    lowers[heights.lower(p)]!.push(p);
  }
  const isSeries = (net: number): boolean => {
    const [above, below] = [lowers[net]!, uppers[net]!];
    if (net === heights.rail || nets.nets[net]!.bar !== undefined || above.length !== 1 || below.length !== 1) return false;
    if (rows.unitOf[above[0]!.index]!.block || rows.unitOf[below[0]!.index]!.block) return false;
    // Two loads in series have a track each.
    return !(above[0]!.part.isLoad && below[0]!.part.isLoad);
  };
  const items: Item[] = [];
  for (const unit of rows.units) {
    const first = unit.pieces[0]!;
    if (unit.block) {
      const lead = (of: (p: Piece) => string, net: (p: Piece) => number): readonly Lead[] =>
        grouped(unit.pieces, (p) => nets.vertexOf(of(p)), net, of);
      items.push({
        index: items.length,
        unit,
        pieces: unit.pieces,
        tops: lead((p) => topOf(p, heights), heights.upper),
        bottoms: lead((p) => bottomOf(p, heights), heights.lower),
      });
    } else if (!isSeries(heights.upper(first))) {
      const pieces = [first];
      for (let net = heights.lower(first); isSeries(net); net = heights.lower(pieces.at(-1)!)) pieces.push(uppers[net]![0]!);
      const last = pieces.at(-1)!;
      items.push({
        index: items.length,
        unit: undefined,
        pieces,
        tops: [{ net: heights.upper(first), terminal: topOf(first, heights), members: [first] }],
        bottoms: [{ net: heights.lower(last), terminal: bottomOf(last, heights), members: [last] }],
      });
    }
  }
  const under: Item[][] = nets.nets.map(() => []);
  for (const item of items) under[mainTop(item, nets)]!.push(item);
  const carrier = nets.nets.map((net) => (net.bar ? undefined : carrierOf(net.index, items)));
  const first = leadingTo(
    nets.pieces.find((p) => p.symbol.role === 'supply' && p.part.kind.supply !== undefined),
    items,
    carrier,
    nets,
  );
  for (const list of under) list.sort((a, b) => Number(first.has(b)) - Number(first.has(a)) || a.pieces[0]!.index - b.pieces[0]!.index);
  const gapOf = new Int32Array(nets.nets.length).fill(-1);
  const lowestGap = new Int32Array(nets.nets.length).fill(rows.count - 1);
  for (const net of nets.nets) {
    for (const p of lowers[net.index]!) gapOf[net.index] = Math.max(gapOf[net.index]!, rows.rowOf[p.index]!);
    for (const p of uppers[net.index]!) lowestGap[net.index] = Math.min(lowestGap[net.index]!, rows.rowOf[p.index]! - 1);
    if (net.bar) gapOf[net.index] = rows.count - 1;
    else if (lowers[net.index]!.length === 0) lowestGap[net.index] = -1;
    lowestGap[net.index] = Math.max(lowestGap[net.index]!, gapOf[net.index]!);
  }
  return { items, under, first, carrier, gapOf, lowestGap };
}

/** The net that an item hangs on: of several, one that is no ground bar, in file order. */
export function mainTop(item: Item, nets: Nets): number {
  return (item.tops.find((t) => nets.nets[t.net]!.bar === undefined) ?? item.tops[0]!).net;
}

function leadingTo(
  piece: Piece | undefined,
  items: readonly Item[],
  carrier: readonly (Item | undefined)[],
  nets: Nets,
): ReadonlySet<Item> {
  const found = new Set<Item>();
  for (let item = items.find((i) => piece && i.pieces.includes(piece)); item && !found.has(item); item = carrier[mainTop(item, nets)])
    found.add(item);
  return found;
}

/** Distribution comes before loads: a net under both a fuse and a lamp belongs to the fuse. */
function carrierOf(net: number, items: readonly Item[]): Item | undefined {
  let best: Item | undefined;
  let bestRank = Number.POSITIVE_INFINITY;
  for (const item of items)
    for (const lead of item.bottoms) {
      if (lead.net !== net) continue;
      const rank = item.pieces.some((p) => p.symbol.role === 'load' || p.symbol.role === 'supply') ? 1 : 0;
      if (rank < bestRank) [best, bestRank] = [item, rank];
    }
  return best;
}

function grouped(
  pieces: readonly Piece[],
  key: (p: Piece) => string,
  net: (p: Piece) => number,
  terminal: (p: Piece) => string,
): readonly Lead[] {
  const groups = new Map<string, Piece[]>();
  for (const p of pieces) groups.set(key(p), [...(groups.get(key(p)) ?? []), p]);
  return [...groups.values()].map((members) => ({ net: net(members[0]!), terminal: terminal(members[0]!), members }));
}
