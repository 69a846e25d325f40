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
    [r.name, r.circuit, r.level, r.seed, r.outcome, r.score, r.minutes, r.bestMinutes, r.readings, r.money, r.unsafe, r.hints].map(String),
  );
  return [[...classHead], ...lines]
    .map((cells) => csvLine(cells, ','))
    .join('\n')
    .concat('\n');
}

/** An apprentice of the class who has no exercise behind them yet. */
const notYet = (name: string): ClassRow => ({
  name,
  circuit: '',
  level: 0,
  seed: 0,
  outcome: 'not yet',
  score: 0,
  minutes: 0,
  bestMinutes: 0,
  readings: 0,
  money: 0,
  unsafe: 0,
  hints: 0,
});
const isNotYet = (r: ClassRow): boolean => r.outcome === 'not yet';

/** The sheet with one more line: in the place of that apprentice's empty line, else at the end. The same line twice is one. */
export function withLine(rows: readonly ClassRow[], row: ClassRow): readonly ClassRow[] {
  if (rows.some((r) => JSON.stringify(r) === JSON.stringify(row))) return rows;
  if (isNotYet(row)) return rows.some((r) => r.name === row.name) ? rows : [...rows, row];
  const empty = rows.findIndex((r) => r.name === row.name && isNotYet(r));
  return empty < 0 ? [...rows, row] : rows.map((r, k) => (k === empty ? row : r));
}

/** All lines of one apprentice as one. */
export type Apprenticed = {
  readonly name: string;
  readonly done: number;
  /** Mean of the scores; 0 where nothing is done. */
  readonly score: number;
  readonly minutes: number;
  readonly bestMinutes: number;
  readonly unsafe: number;
  readonly hints: number;
};

/** One line an apprentice, in the order in which they first stand on the sheet. */
export function byApprentice(rows: readonly ClassRow[]): readonly Apprenticed[] {
  return [...new Set(rows.map((r) => r.name))].map((name) => {
    const own = rows.filter((r) => r.name === name && !isNotYet(r));
    const sum = (of: (r: ClassRow) => number) => own.reduce((all, r) => all + of(r), 0);
    return {
      name,
      done: own.length,
      score: Math.round(sum((r) => r.score) / Math.max(1, own.length)),
      minutes: sum((r) => r.minutes),
      bestMinutes: sum((r) => r.bestMinutes),
      unsafe: sum((r) => r.unsafe),
      hints: sum((r) => r.hints),
    };
  });
}

/** Reads a class sheet, or a plain list of names under the head `name`; `why` names the line that cannot be read. */
export function readClassSheet(
  text: string,
): { readonly ok: true; readonly rows: readonly ClassRow[] } | { readonly ok: false; readonly why: string } {
  const [head, ...lines] = csvRows(text, ',').map((r) => ({ cells: r.cells.map((c) => c.text.trim()), line: r.line }));
  const isList = head?.cells[0]?.toLowerCase() === 'name' && head.cells.slice(1).every((c) => c === '');
  if (isList) {
    const named = lines.map(({ cells }) => cells[0] ?? '').filter((name) => name !== '');
    return { ok: true, rows: named.map(notYet) };
  }
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
      name,
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
