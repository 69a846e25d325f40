import { barGroups } from './bars.ts';
import { type Columns, columnsFor } from './columns.ts';
import type { Heights } from './heights.ts';
import type { Item, Items } from './items.ts';
import type { Nets } from './nets.ts';
import type { Rows } from './rows.ts';

/** Trials at most; each is one placing of all columns. Keeps a hundred parts within the time of a few frames. */
const mostTrials = 900;

/**
 * Order of the items under each net, from file order by exchanges that shorten the horizontals and lessen what they
 * cross. An exchange is kept only when it helps, so a further part moves others only where it must.
 */
export function orderedColumns(nets: Nets, heights: Heights, rows: Rows, items: Items): Columns {
  const under: (readonly Item[])[] = [...items.under];
  const isBar = nets.nets.map((net) => net.bar !== undefined);
  let best = columnsFor(nets, heights, rows, items, under);
  let least = costOf(best, items, isBar);
  let trials = 0;
  const tryOrder = (net: number, list: readonly Item[]): boolean => {
    const before = under[net]!;
    under[net] = list;
    trials++;
    const columns = columnsFor(nets, heights, rows, items, under);
    const cost = costOf(columns, items, isBar);
    if (cost < least - 1e-9) {
      [best, least] = [columns, cost];
      return true;
    }
    under[net] = before;
    return false;
  };
  const wide = heights.order.filter((net) => under[net]!.length > 1);
  for (let sweep = 0, moved = true; sweep < 6 && moved && trials < mostTrials; sweep++) {
    moved = false;
    for (const net of wide) {
      if (tryOrder(net, byCentre(under[net]!, best, items))) moved = true;
      for (let k = 0; k + 1 < under[net]!.length && trials < mostTrials; k++) if (tryOrder(net, exchanged(under[net]!, k))) moved = true;
      for (let k = under[net]!.length - 2; k >= 0 && trials < mostTrials; k--) if (tryOrder(net, exchanged(under[net]!, k))) moved = true;
    }
  }
  return best;
}

/** What one more bar of the same ground point costs, in columns of length. */
const bar_cost = 6;

/** Length of all horizontals in columns, and four for each run that one of them crosses. Ground bars count like rails. */
export function costOf({ endsOf, runs, count }: Columns, items: Items, isBar: readonly boolean[]): number {
  const through: { lo: number; hi: number; net: number; end: number }[][] = Array.from({ length: count }, () => []);
  for (const r of runs) through[r.column.at]!.push({ lo: r.lo, hi: r.hi, net: r.topNet, end: r.bottomNet });
  let cost = 0;
  for (const [net, ends] of endsOf.entries()) {
    if (ends.length < 2) continue;
    const at = 2 * items.gapOf[net]! + 1;
    const groups = isBar[net] ? barGroups(ends) : [ends];
    cost += bar_cost * (groups.length - 1);
    for (const group of groups) {
      const [from, to] = [Math.min(...group), Math.max(...group)];
      cost += to - from;
      for (let c = from; c <= to; c++)
        for (const r of through[c]!) {
          if (r.lo < at && at < r.hi) cost += 4;
          else if ((r.hi === at && r.end !== net) || (r.lo === at && r.net !== net)) cost += 1.5;
        }
    }
  }
  return cost;
}

function exchanged(list: readonly Item[], k: number): readonly Item[] {
  const next = [...list];
  [next[k], next[k + 1]] = [next[k + 1]!, next[k]!];
  return next;
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
    .sort((a, b) => a.at - b.at || a.k - b.k)
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
