import { barGroups } from './bars.ts';
import { type Columns, columnsFor, type Run } from './columns.ts';
import type { Heights } from './heights.ts';
import type { Item, Items } from './items.ts';
import type { Nets } from './nets.ts';
import type { Rows } from './rows.ts';

/** Placings of all columns at most, so that a hundred parts stay within the time of a few frames. */
const mostPlacings = 250;

/** What an exchange of two neighbours must save, in columns of length, and a new order of all under one net, as a share: small gains are not worth a drawing that one part more upsets. */
const exchange_gain = 0.5;
/** How many neighbours an item may pass at once. */
const farthest = 6;
const sorting_gain = 0.08;

/**
 * Order of the items under each net, from file order by exchanges that shorten the horizontals and lessen what they
 * cross. An exchange is kept only when it helps, so a further part moves others only where it must. It is judged
 * first by shifting the columns of the two items as they are, and placed anew when that looks better.
 */
export function orderedColumns(nets: Nets, heights: Heights, rows: Rows, items: Items, apart: ReadonlySet<Item>): Columns {
  const isBar = nets.nets.map((net) => net.bar !== undefined);
  const under: (readonly Item[])[] = [...items.under];
  let best = columnsFor(nets, heights, rows, items, under, apart);
  let price = pricesOf(best, items, isBar);
  let least = price();
  let placings = 0;
  const tryOrder = (net: number, list: readonly Item[], gain: number): boolean => {
    const before = under[net]!;
    if (placings >= mostPlacings || list.every((item, k) => item === before[k])) return false;
    under[net] = list;
    placings++;
    const columns = columnsFor(nets, heights, rows, items, under, apart);
    const prices = pricesOf(columns, items, isBar);
    const cost = prices();
    if (cost < least - gain) {
      [best, price, least] = [columns, prices, cost];
      return true;
    }
    under[net] = before;
    return false;
  };
  /** Puts an item behind the next ones up to `last`. */
  const tryMove = (net: number, k: number, last: number): boolean => {
    const list = under[net]!;
    if (items.first.has(list[k]!)) return false;
    const [from, next, end] = [best.spanOf[list[k]!.index]!, best.spanOf[list[k + 1]!.index]!, best.spanOf[list[last]!.index]!];
    if (from[1] === next[0] && price(shifted(best.count, from[0], next[0], end[1]), least) >= least - exchange_gain) return false;
    return tryOrder(net, [...list.slice(0, k), ...list.slice(k + 1, last + 1), list[k]!, ...list.slice(last + 1)], exchange_gain);
  };
  /** Puts an item before the earlier ones from `first` on. */
  const tryMoveUp = (net: number, k: number, first: number): boolean => {
    const list = under[net]!;
    if (items.first.has(list[first]!)) return false;
    const [start, before, own] = [best.spanOf[list[first]!.index]!, best.spanOf[list[k - 1]!.index]!, best.spanOf[list[k]!.index]!];
    if (before[1] === own[0] && price(shifted(best.count, start[0], own[0], own[1]), least) >= least - exchange_gain) return false;
    return tryOrder(net, [...list.slice(0, first), list[k]!, ...list.slice(first, k), ...list.slice(k + 1)], exchange_gain);
  };
  const wide = heights.order.filter((net) => under[net]!.length > 1);
  for (let sweep = 0, moved = true; sweep < 8 && moved; sweep++) {
    moved = false;
    for (const net of wide) {
      if (tryOrder(net, byCentre(under[net]!, best, items), sorting_gain * least)) moved = true;
      const count = under[net]!.length;
      for (let reach = 1; reach <= farthest; reach++) {
        for (let k = 0; k + reach < count; k++) if (tryMove(net, k, k + reach)) moved = true;
        for (let k = count - 1; k - reach >= 0; k--) if (tryMoveUp(net, k, k - reach)) moved = true;
      }
    }
  }
  return best;
}

/** New place of every column when the block from `a` to `b` and that from `b` to `c` change places. */
function shifted(count: number, a: number, b: number, c: number): Int32Array {
  return Int32Array.from({ length: count }, (_, k) => (k < a || k >= c ? k : k < b ? k + c - b : k - (b - a)));
}

/** What one more bar of the same ground point costs, in columns of length. */
const bar_cost = 6;

/**
 * Price of a placing, also with its columns moved: length of all horizontals in columns, and four for each run that
 * one of them crosses, less for one that ends in its gap. Ground bars count like rails. Stops counting at `enough`.
 */
function pricesOf(
  { endsOf, runs, count }: Columns,
  items: Items,
  isBar: readonly boolean[],
): (moved?: Int32Array, enough?: number) => number {
  const through: Run[][] = Array.from({ length: count }, () => []);
  for (const r of runs) through[r.column.at]!.push(r);
  const place = new Int32Array(count);
  const at = new Int32Array(count);
  return (moved, enough = Number.POSITIVE_INFINITY) => {
    for (let c = 0; c < count; c++) {
      place[c] = moved ? moved[c]! : c;
      at[place[c]!] = c;
    }
    let cost = 0;
    const span = (net: number, from: number, to: number) => {
      const gap = 2 * items.gapOf[net]! + 1;
      cost += to - from;
      for (let c = from; c <= to; c++)
        for (const r of through[at[c]!]!) {
          if (r.lo < gap && gap < r.hi) cost += 4;
          else if ((r.hi === gap && r.bottomNet !== net) || (r.lo === gap && r.topNet !== net)) cost += 1.5;
        }
    };
    for (let net = 0; net < endsOf.length; net++) {
      if (cost >= enough) return cost;
      const ends = endsOf[net]!;
      if (ends.length < 2) continue;
      if (isBar[net]) {
        const groups = barGroups(ends.map((c) => place[c]!));
        cost += bar_cost * (groups.length - 1);
        for (const g of groups) span(net, g[0]!, g.at(-1)!);
        continue;
      }
      let [from, to] = [place[ends[0]!]!, place[ends[0]!]!];
      for (const c of ends) {
        const p = place[c]!;
        if (p < from) from = p;
        if (p > to) to = p;
      }
      span(net, from, to);
    }
    return cost;
  };
}

/** By the middle of what each item is tied to elsewhere; ties keep their order. */
function byCentre(list: readonly Item[], columns: Columns, items: Items): readonly Item[] {
  const middle = (net: number) => {
    const ends = columns.endsOf[net]!;
    return ends.reduce((sum, c) => sum + c, 0) / ends.length;
  };
  const centre = (item: Item) => {
    const own = item.bottoms.flatMap((b) => leaves(b.net, items, new Set()));
    const all = [...own, ...item.tops.slice(1).map((t) => t.net)].map(middle);
    return all.reduce((sum, c) => sum + c, 0) / Math.max(1, all.length);
  };
  return list
    .map((item, k) => ({ item, k, at: centre(item) }))
    .sort((a, b) => Number(items.first.has(b.item)) - Number(items.first.has(a.item)) || a.at - b.at || a.k - b.k)
    .map(({ item }) => item);
}

/** Nets at which everything under a net ends: ground bars, and rails that hang on something else. */
function leaves(net: number, items: Items, seen: Set<number>): readonly number[] {
  if (seen.has(net)) return [];
  seen.add(net);
  const next = items.under[net]!;
  if (next.length === 0 || items.carrier[net] === undefined) return [net];
  return next.flatMap((item) => item.bottoms.flatMap((b) => leaves(b.net, items, seen)));
}
