import { type Channels, channelsOf } from './channels.ts';
import { type Columns, columnsFor } from './columns.ts';
import type { Heights } from './heights.ts';
import type { Item, Items } from './items.ts';
import type { Nets } from './nets.ts';
import { orderedColumns } from './order.ts';
import type { Rows } from './rows.ts';

/** Columns and horizontals; blocks whose wires would lie on each other in every order are moved beside what hangs on them. */
export function placed(
  nets: Nets,
  heights: Heights,
  rows: Rows,
  items: Items,
  inFileOrder: boolean,
): { columns: Columns; channels: Channels } {
  const apart = new Set<Item>();
  for (;;) {
    const columns = inFileOrder
      ? columnsFor(nets, heights, rows, items, items.under, apart)
      : orderedColumns(nets, heights, rows, items, apart);
    const channels = channelsOf(nets, rows.count, items, columns);
    const inTheWay = items.items.filter(
      (i) => i.unit && !apart.has(i) && [...i.tops, ...i.bottoms].some((lead) => channels.clashes.has(lead.net)),
    );
    if (inTheWay.length === 0) return { columns, channels };
    for (const item of inTheWay) apart.add(item);
  }
}
