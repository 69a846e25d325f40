import type { Layout } from '../../src/report/layout/layout.ts';
import type { RowView } from '../../src/report/positionRows.ts';
import type { Column } from './PositionTable.ts';

/** Columns under the tracks; loads without a track, and the engine, follow on the right. @param elsewhere  rows that may follow */
export function columnsOf({ tracks, pitch }: Layout, rows: readonly RowView[], elsewhere: readonly RowView[]): readonly Column[] {
  const onTrack = [...tracks].sort((a, b) => a.x - b.x).filter((t) => rows.some((r) => r.id === t.load));
  const columns: Column[] = onTrack.map((t) => ({ load: t.load, number: t.number, left: t.x - pitch / 2, width: pitch }));
  let end = columns.at(-1) ? columns.at(-1)!.left + pitch : 84;
  for (const row of elsewhere) {
    if (onTrack.some((t) => t.load === row.id)) continue;
    columns.push({ load: row.id, number: 0, left: end, width: 72 });
    end += 72;
  }
  return columns;
}
