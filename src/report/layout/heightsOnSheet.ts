import type { Channels } from './channels.ts';
import type { Columns } from './columns.ts';
import { innerLevels, levelCount } from './innerLevels.ts';
import type { Items } from './items.ts';
import type { Piece } from './nets.ts';
import type { Rows } from './rows.ts';

/** Distances of the drawing, px; multiples of the 4 px grid where they can be. */
export const sheet = {
  gutter: 84,
  right: 40,
  top: 40,
  /** From a row to the first horizontal under it, and from the last to the next row. */
  air: 13,
  /** Between two horizontals. */
  level: 20,
  /** Smallest gap between two rows. */
  gap: 14,
  /** More of either where a connector stands in a gap: its mark needs a run of its own. */
  mark: 8,
  /** Between two ground bars one over the other: room for sign and name. */
  bar: 42,
  /** From the lowest ground bar to the edge: sign, name and straps. */
  bottom: 46,
  strap: 16,
  frame: { side: 26, top: 9, inner: 15, bottom: 19 },
} as const;

export type Heights = {
  /** Middle of each row. */
  readonly rowY: readonly number[];
  /** Upper and lower edge of each row's frames. */
  readonly frameTop: readonly number[];
  readonly frameBottom: readonly number[];
  readonly levelY: (gap: number, level: number) => number;
  readonly barsBottom: number;
};

/** Half of what a piece takes upwards from the middle of its row. */
const half = (p: Piece) => p.symbol.height / 2;

/**
 * Gives every row and every horizontal its height on the sheet.
 *
 * @param marked  gaps in which a connector stands on a run of no more than that gap
 */
export function heightsOnSheet(rows: Rows, items: Items, columns: Columns, channels: Channels, marked: ReadonlySet<number>): Heights {
  const above = new Float64Array(rows.count);
  const below = new Float64Array(rows.count);
  for (const item of items.items)
    for (const p of item.pieces) {
      const row = rows.rowOf[p.index]!;
      const isFramed = item.unit?.block !== undefined;
      const f = sheet.frame;
      const up = half(p) + (isFramed ? f.top + f.inner * levelCount(innerLevels(item.tops, columns)) : 0);
      const down = half(p) + (isFramed ? f.bottom + f.inner * levelCount(innerLevels(item.bottoms, columns)) : 0);
      above[row] = Math.max(above[row]!, up);
      below[row] = Math.max(below[row]!, down);
    }
  const rowY: number[] = [];
  const gapY: number[] = [sheet.top];
  let y = sheet.top + Math.max(0, channels.levels[0]! - 1) * sheet.level + sheet.air;
  for (let row = 0; row < rows.count; row++) {
    y += above[row]!;
    rowY.push(Math.round(y));
    y += below[row]!;
    const more = marked.has(row) ? sheet.mark : 0;
    gapY.push(Math.round(y + sheet.air + more));
    const levels = channels.levels[row + 1]!;
    const isLast = row === rows.count - 1;
    if (isLast) y += sheet.air + Math.max(0, levels - 1) * sheet.bar;
    else y += levels === 0 ? sheet.gap + 2 * more : 2 * (sheet.air + more) + (levels - 1) * sheet.level;
  }
  return {
    rowY,
    frameTop: rowY.map((m, r) => m - above[r]!),
    frameBottom: rowY.map((m, r) => m + below[r]!),
    levelY: (gap, level) => gapY[gap + 1]! + level * (gap === rows.count - 1 ? sheet.bar : sheet.level),
    barsBottom: y,
  };
}
