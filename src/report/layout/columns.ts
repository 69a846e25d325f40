import type { Heights } from './heights.ts';
import { type Item, type Items, type Lead, mainTop } from './items.ts';
import type { Nets, Piece } from './nets.ts';
import type { Rows } from './rows.ts';

/** A vertical run: everything between two horizontals, or between a horizontal and a block. Positions: row r is 2r, gap g is 2g + 1. */
export type Run = {
  readonly column: Column;
  readonly lo: number;
  readonly hi: number;
  readonly topNet: number;
  readonly bottomNet: number;
};
export type Column = { at: number; readonly runs: Run[] };

export type Columns = {
  readonly count: number;
  /** Column of every piece, by index. */
  readonly columnOf: Int32Array;
  /** Column of every lead: `item.tops[k]`, `item.bottoms[k]`. */
  readonly leadAt: ReadonlyMap<Lead, number>;
  readonly runs: readonly Run[];
  /** Columns of each net's ends, unsorted. */
  readonly endsOf: readonly (readonly number[])[];
  /** First column of each item with all that hangs on it, and the first one behind it. */
  readonly spanOf: readonly (readonly [number, number])[];
};

/**
 * Puts items in columns for a given order of the items under each net: an item stands over one of the columns of what
 * hangs on it, or has a column of its own. Two runs share a column only where nothing of one lies beside the other.
 *
 * @param apart  blocks whose pieces stand on columns of their own, beside what hangs on them
 * Cost: near linear in pieces.
 */
export function columnsFor(
  nets: Nets,
  heights: Heights,
  rows: Rows,
  items: Items,
  under: readonly (readonly Item[])[],
  apart: ReadonlySet<Item> = new Set(),
): Columns {
  const columnOf: Column[] = new Array(nets.pieces.length);
  const leadColumn = new Map<Lead, Column>();
  const runs: Run[] = [];
  const seen = new Set<number>();
  const ownColumns: Column[][] = items.items.map(() => []);
  const gap = (net: number) => 2 * items.gapOf[net]! + 1;
  const fresh = (): Column => ({ at: -1, runs: [] });
  const put = (run: Run) => {
    run.column.runs.push(run);
    runs.push(run);
  };
  const isFree = (column: Column, lo: number, hi: number, topNet: number, bottomNet: number) =>
    column.runs.every((r) => {
      if (lo < r.hi && r.lo < hi) return false;
      if (r.lo === hi && r.topNet !== bottomNet) return false;
      return !(r.hi === lo && r.bottomNet !== topNet);
    });

  const columnsUnder = (net: number): Column[] => {
    if (seen.has(net) || nets.nets[net]!.bar) return [];
    seen.add(net);
    const columns: Column[] = [];
    for (const item of under[net]!) {
      const own = item.unit ? blockColumns(item) : stackColumns(item);
      ownColumns[item.index] = own;
      for (const c of own) columns.push(c);
    }
    return columns;
  };

  const stackColumns = (item: Item): Column[] => {
    const [top, bottom] = [item.tops[0]!, item.bottoms[0]!];
    const columns = items.carrier[bottom.net] === item ? columnsUnder(bottom.net) : [];
    const [lo, hi] = [gap(top.net), gap(bottom.net)];
    // Straight over one of the items that it feeds, if it can be.
    const heads = columns.length === 0 ? [] : under[bottom.net]!.map((i) => leadColumn.get(i.tops.find((t) => t.net === bottom.net)!)!);
    const fits = (c: Column) => isFree(c, lo, hi, top.net, bottom.net);
    let column = middleFirst(heads).find(fits) ?? middleFirst(columns).find(fits);
    if (column === undefined) {
      column = fresh();
      columns.splice(columns.length >> 1, 0, column);
    }
    put({ column, lo, hi, topNet: top.net, bottomNet: bottom.net });
    for (const p of item.pieces) columnOf[p.index] = column;
    leadColumn.set(top, column);
    leadColumn.set(bottom, column);
    return columns;
  };

  const blockColumns = (item: Item): Column[] => {
    const row = 2 * rows.rowOf[item.pieces[0]!.index]!;
    // Over a column of its own subtree a piece may stand only when its net runs right under it.
    const carries = item.bottoms.filter((b) => items.carrier[b.net] === item);
    const near = apart.has(item) ? [] : carries.filter((b) => gap(b.net) === row + 1);
    const ends = item.bottoms.filter((b) => !near.includes(b));
    const columns = carries.flatMap((b) => columnsUnder(b.net));
    const carrying = near.flatMap((b) => b.members);
    // Pieces that share a feed with one that stands already come next to it.
    const fedWith = (p: Piece) => (item.tops.some((t) => t.members.includes(p) && t.members.some((m) => carrying.includes(m))) ? 0 : 1);
    const ending = ends
      .flatMap((b) => b.members)
      .map((p, k) => ({ p, k }))
      .sort((a, b) => fedWith(a.p) - fedWith(b.p) || a.k - b.k)
      .map(({ p }) => p);
    const standing = [...carrying, ...ending];
    while (columns.length < carrying.length) columns.push(fresh());
    const above = row - 1;
    const isOpen = (c: Column) => c.runs.every((r) => r.lo > above);
    const own = ending.map(fresh);
    let first =
      carrying.length === 0
        ? columns.length >> 1
        : ending.length > 0
          ? columns.length - carrying.length
          : (columns.length - standing.length) >> 1;
    columns.splice(carrying.length === 0 ? first : columns.length, 0, ...own);
    // Slides aside from columns through which a foreign feed comes down; else stands on columns of its own.
    const windowIsOpen = (at: number) =>
      at >= 0 && at + standing.length <= columns.length && columns.slice(at, at + standing.length).every(isOpen);
    if (!windowIsOpen(first)) {
      const other = ending.length > 0 ? undefined : middleOut(first, columns.length).find(windowIsOpen);
      if (other === undefined) {
        first = columns.length - own.length;
        columns.splice(first, 0, ...carrying.map(fresh));
      } else first = other;
    }
    for (const [k, p] of standing.entries()) columnOf[p.index] = columns[first + k]!;
    for (const b of item.bottoms) {
      const column = columnOf[b.members[b.members.length >> 1]!.index]!;
      leadColumn.set(b, column);
      put({ column, lo: row, hi: gap(b.net), topNet: b.net, bottomNet: b.net });
    }
    for (const t of item.tops) {
      const stand = middleFirst(t.members).map((p) => columnOf[p.index]!);
      const column = stand.find((c) => isFree(c, gap(t.net), row, t.net, t.net)) ?? stand[0]!;
      leadColumn.set(t, column);
      put({ column, lo: gap(t.net), hi: row, topNet: t.net, bottomNet: t.net });
    }
    return columns;
  };

  const tops = heights.order.filter((net) => !nets.nets[net]!.bar && items.carrier[net] === undefined);
  const all = tops.flatMap((net) => columnsUnder(net));
  // What hangs only on ground bars (a loop between two grounds) comes last.
  for (const item of items.items)
    if (nets.nets[mainTop(item, nets)]!.bar) all.push(...(item.unit ? blockColumns(item) : stackColumns(item)));
  for (const [k, column] of all.entries()) column.at = k;

  const endsOf: number[][] = nets.nets.map(() => []);
  for (const item of items.items) for (const lead of [...item.tops, ...item.bottoms]) endsOf[lead.net]!.push(leadColumn.get(lead)!.at);
  return {
    count: all.length,
    columnOf: Int32Array.from(nets.pieces, (p) => columnOf[p.index]!.at),
    leadAt: new Map([...leadColumn].map(([lead, column]) => [lead, column.at])),
    runs,
    endsOf,
    spanOf: ownColumns.map((own) => [own[0]?.at ?? 0, (own.at(-1)?.at ?? -1) + 1]),
  };
}

/** Middle one first, then outwards, left before right. */
export function middleFirst<T>(list: readonly T[]): readonly T[] {
  return middleOut((list.length - 1) >> 1, list.length).map((k) => list[k]!);
}

function middleOut(from: number, length: number): readonly number[] {
  const order: number[] = [];
  for (let step = 0; step <= length; step++)
    for (const k of step === 0 ? [from] : [from - step, from + step]) if (k >= 0 && k < length) order.push(k);
  return order;
}
