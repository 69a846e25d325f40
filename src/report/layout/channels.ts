import { barGroups } from './bars.ts';
import type { Columns } from './columns.ts';
import type { Items } from './items.ts';
import type { Nets } from './nets.ts';

/** A net's horizontal: the gap that it runs in, its level there (0 on top), and the columns it spans. */
export type Rail = { readonly net: number; readonly gap: number; level: number; readonly from: number; readonly to: number };

export type Channels = {
  /** By net; none for a net that is one straight vertical, several for a ground point whose tracks stand far apart. */
  readonly railsOf: readonly (readonly Rail[])[];
  /** Gap of each net as chosen, also where it has no horizontal. */
  readonly gapOf: Int32Array;
  /** Nets of which two verticals would lie on each other in every order. */
  readonly clashes: ReadonlySet<number>;
  /** Levels in each gap; index 0 is gap -1. */
  readonly levels: readonly number[];
};

/**
 * Gives every net its horizontal: right under what feeds it, ground bars at the bottom. In each gap two horizontals
 * that overlap take the order with fewer crossings, and never one in which two verticals would lie on each other.
 *
 * Cost: cubic in the horizontals of one gap, of which there are seldom twenty.
 */
export function channelsOf(nets: Nets, rowCount: number, items: Items, columns: Columns): Channels {
  const gapOf = Int32Array.from(items.gapOf);
  const rails: Rail[][] = nets.nets.map(() => []);
  for (const net of nets.nets) {
    const ends = columns.endsOf[net.index]!;
    if (ends.length === 0) continue;
    const gap = gapOf[net.index]!;
    for (const group of net.bar ? barGroups(ends) : [ends]) {
      const [from, to] = [Math.min(...group), Math.max(...group)];
      if (from !== to || net.bar) rails[net.index]!.push({ net: net.index, gap, level: 0, from, to });
    }
  }
  const levels: number[] = [];
  const clashes = new Set<number>();
  for (let gap = -1; gap < rowCount; gap++) {
    const here = rails.flat().filter((r) => r.gap === gap);
    levels.push(assignLevels(here, gap, columns, clashes));
  }
  return { railsOf: rails, gapOf, clashes, levels };
}

/** Returns how many levels the rails of a gap take; adds nets that clash. */
function assignLevels(rails: readonly Rail[], gap: number, columns: Columns, clashes: Set<number>): number {
  const at = 2 * gap + 1;
  const down = new Map<number, number[]>();
  const up = new Map<number, number[]>();
  const add = (map: Map<number, number[]>, net: number, column: number) => map.set(net, [...(map.get(net) ?? []), column]);
  for (const r of columns.runs) {
    if (r.lo === at) add(down, r.topNet, r.column.at);
    if (r.hi === at) add(up, r.bottomNet, r.column.at);
  }
  const own = (cols: readonly number[] | undefined, r: Rail) => (cols ?? []).filter((c) => c >= r.from && c <= r.to);
  const downs = (r: Rail) => own(down.get(r.net), r);
  const ups = (r: Rail) => own(up.get(r.net), r);
  const within = (cols: readonly number[], r: Rail) => cols.filter((c) => c > r.from && c < r.to).length;
  const meets = (cols: readonly number[], others: readonly number[]) => cols.some((c) => others.includes(c));
  /** Crossings when a runs above b: what leaves a downwards meets b, what comes to b from above meets a. Ends on ends would lie on each other. */
  const price = (a: Rail, b: Rail): number => {
    const touch = (cols: readonly number[], r: Rail) => (cols.some((c) => c === r.from || c === r.to) ? 1 : 0);
    const clash = meets(downs(a), ups(b)) ? clash_price : 0;
    return clash + within(downs(a), b) + within(ups(b), a) + 1.01 * (touch(downs(a), b) + touch(ups(b), a));
  };
  const order: Rail[] = [];
  for (const rail of [...rails].sort((a, b) => a.from - b.from || a.net - b.net)) {
    let bestAt = order.length;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k <= order.length; k++) {
      let cost = 0;
      for (const [j, other] of order.entries()) if (overlaps(rail, other)) cost += j < k ? price(other, rail) : price(rail, other);
      if (cost < least) [least, bestAt] = [cost, k];
    }
    order.splice(bestAt, 0, rail);
  }
  for (let moved = true, sweep = 0; moved && sweep < 8; sweep++) {
    moved = false;
    for (let k = 0; k + 1 < order.length; k++) {
      const [a, b] = [order[k]!, order[k + 1]!];
      if (!overlaps(a, b) || price(b, a) >= price(a, b)) continue;
      [order[k], order[k + 1]] = [b, a];
      moved = true;
    }
  }
  let count = 0;
  for (const [k, rail] of order.entries()) {
    for (const over of order.slice(0, k))
      if (overlaps(over, rail) && price(over, rail) >= clash_price) for (const { net } of [over, rail]) clashes.add(net);
    rail.level = Math.max(0, ...order.slice(0, k).flatMap((o) => (overlaps(o, rail) ? [o.level + 1] : [])));
    count = Math.max(count, rail.level + 1);
  }
  return count;
}

/** More than all crossings together. */
const clash_price = 1e6;

/** Also where they only touch: two nets never end at one point. */
const overlaps = (a: Rail, b: Rail) => a.from <= b.to && b.from <= a.to;
