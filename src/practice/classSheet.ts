import { csvLine, csvRows } from '../circuit/wireList/csv.ts';

/** One line of a class sheet. */
export type ClassRow = {
  readonly name: string;
  readonly circuit: string;
  readonly level: number;
  readonly seed: number;
  readonly outcome: string;
  readonly score: number;
  readonly minutes: number;
  readonly bestMinutes: number;
  readonly readings: number;
  readonly money: number;
  readonly unsafe: number;
  readonly hints: number;
};

export const classHead = [
  'name',
  'circuit',
  'level',
  'seed',
  'outcome',
  'score',
  'minutes',
  'best minutes',
  'readings',
  'money',
  'unsafe',
  'hints',
] as const;

/** A class sheet as CSV; cells that a spreadsheet would take for a formula are written as text. */
export function classSheetText(rows: readonly ClassRow[]): string {
  const lines = rows.map((r) =>
    [
      plain(r.name),
      plain(r.circuit),
      r.level,
      r.seed,
      plain(r.outcome),
      r.score,
      r.minutes,
      r.bestMinutes,
      r.readings,
      r.money,
      r.unsafe,
      r.hints,
    ].map(String),
  );
  return [[...classHead], ...lines]
    .map((cells) => csvLine(cells, ','))
    .join('\n')
    .concat('\n');
}

const plain = (text: string): string => (/^[=+\-@\t]/.test(text) ? `'${text}` : text);

/** Reads a class sheet; `why` names the line that cannot be read. */
export function readClassSheet(
  text: string,
): { readonly ok: true; readonly rows: readonly ClassRow[] } | { readonly ok: false; readonly why: string } {
  const [head, ...lines] = csvRows(text, ',').map((r) => ({ cells: r.cells.map((c) => c.text.trim()), line: r.line }));
  if (!head || classHead.some((h, k) => head.cells[k]?.toLowerCase() !== h))
    return { ok: false, why: `the first line of a class sheet is: ${classHead.join(',')}` };
  const rows: ClassRow[] = [];
  for (const { cells, line } of lines) {
    if (cells.every((c) => c === '')) continue;
    const [name = '', circuit = '', level, seed, outcome = '', ...numbers] = cells;
    const figures = [level, seed, ...numbers.slice(0, 7)].map(Number);
    if (cells.length < classHead.length || figures.some((n) => !Number.isFinite(n)))
      return { ok: false, why: `line ${line} does not hold ${classHead.length} cells with numbers where numbers belong` };
    const [l, s, score, minutes, bestMinutes, readings, money, unsafe, hints] = figures as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    rows.push({
      name: name.replace(/^'/, ''),
      circuit,
      level: l,
      seed: s,
      outcome,
      score,
      minutes,
      bestMinutes,
      readings,
      money,
      unsafe,
      hints,
    });
  }
  return { ok: true, rows };
}
