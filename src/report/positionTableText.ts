import { type Cell, engineRow, type PositionTable } from '../solve/positionTable.ts';
import { noticed } from './noticed.ts';
import { textTable, wrapped } from './textTable.ts';

/** `table` as data, as CONTRACT of the command line has it. */
export function positionTableData(title: string, faults: readonly string[], table: PositionTable) {
  return {
    circuit: title,
    faults,
    positions: table.positions.map((p) => p.name),
    places: table.positions.map(({ name, angle, from, to, detent }) => ({ name, angle, from, to, detent })),
    loads: table.rows.map(({ id, name, needs, cells }) => ({ id, name, needs, cells })),
    noticed: noticed(table),
    chatters: table.chatters,
    warnings: table.warnings.map(({ code, part, element, what, value, limit, source, position }) => ({
      code,
      part,
      element,
      what,
      value,
      limit,
      source,
      position,
    })),
  };
}

/**
 * The position table for a terminal: a row a load, a column a key position. A changed cell is marked with `!` and says
 * what it was; `~` marks current that comes by another way. Under it, in words, what the driver would notice.
 */
export function positionTableText(title: string, faults: readonly string[], table: PositionTable, width = 80): string {
  const compare = faults.length > 0;
  const head = ['', '', ...table.positions.map((p) => `${wrapped(p.name, 9).join('\n')}\n${angles(p)}`)];
  const rows = table.rows.map((row) => [
    row.id === engineRow ? '' : row.id,
    row.id === engineRow ? 'Engine' : wrapped(row.name, Math.max(16, Math.floor(width / 3))).join('\n'),
    ...row.cells.map((c) => cellText(c, compare)),
  ]);
  const lines = [
    title,
    ...(compare ? wrapped(`with ${faults.join(', ')}`, width) : ['healthy']),
    '',
    textTable({ head, rows, keeps: 2 }, width),
    '',
  ];
  if (compare) {
    const said = noticed(table);
    lines.push(
      ...(said.length > 0
        ? ['What the driver would notice:', ...said.flatMap((s) => wrapped(`  ${s}`, width))]
        : ['Nothing that a driver would notice in these positions.']),
    );
    lines.push('', '! = other than in the healthy circuit (was …)   ~ = fed by another way');
  } else lines.push('Each cell asks: would this load work here if it were switched on?');
  for (const { part, positions } of table.chatters)
    lines.push(
      ...wrapped(`${part} never settles in ${positions.join(', ')}: it goes on and off without end; a relay clicks or buzzes.`, width),
    );
  for (const w of table.warnings)
    lines.push(
      ...wrapped(
        `over its guide value in ${w.position}: ${w.element} carries ${figure(w.value)} A, ${w.what} ${figure(w.limit)} A (${w.source})`,
        width,
      ),
    );
  return lines.join('\n');
}

const figure = (x: number): string => (x < 10 ? x.toFixed(1) : x.toFixed(0));

function angles(p: PositionTable['positions'][number]): string {
  if (p.name === 'as it is') return '';
  return p.from === p.to ? `${Number(p.from.toFixed(1))}°` : `${Number(p.from.toFixed(1))}°..${Number(p.to.toFixed(1))}°`;
}

function cellText(cell: Cell, compare: boolean): string {
  const now = shown(cell.verdict, cell.healthy.verdict);
  const sometimes = cell.sometimes ? ` / ${shown(cell.sometimes.verdict, '')} ${Math.round(100 * cell.sometimes.share)} %` : '';
  const marks = `${compare && cell.changed ? '! ' : ''}${cell.otherWay ? '~ ' : ''}`;
  const was = compare && cell.changed ? `\nwas ${shown(cell.healthy.verdict, cell.healthy.verdict)}` : '';
  return `${marks}${now}${sometimes}${was}`;
}

/** A load that is not fed here by design is off, not dead. */
function shown(verdict: Cell['verdict'], healthy: string): string {
  return verdict === 'dead' && healthy === 'dead' ? 'off' : verdict;
}
