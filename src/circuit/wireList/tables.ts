import { csvRows, type Row, type Separator, separators } from './csv.ts';
import { folded, headRead, type Language, type WireField, wireFields } from './headerWords.ts';

/** A column of the wires: what it holds, where it stands, and the unit that its head names. */
export type Column = {
  readonly field: WireField | 'other';
  readonly head: string;
  readonly at: number;
  readonly unit: string | undefined;
  readonly isByHand?: true;
};

/** Columns given by hand: the field, and the head or the number (from 1) of its column. */
export type ByHand = Readonly<Partial<Record<WireField, string>>>;

export type Tables = {
  readonly separator: Separator;
  readonly decimal: '.' | ',';
  readonly language: Language;
  readonly head: Row | undefined;
  /** Columns of a row that names one of the ends alone, where no row names both: then there is no head. */
  readonly half: readonly Column[];
  readonly columns: readonly Column[];
  /** Columns given by hand that are not read: the file has none such, or another field has taken it. */
  readonly absent: readonly { readonly field: WireField; readonly wanted: string; readonly taken: Column | undefined }[];
  readonly wires: readonly Row[];
  /** Rows of the tables of parts and of the circuit, when the file has them. */
  readonly parts: readonly Row[];
  readonly circuit: readonly Row[];
  /** Rows above the head of the wires that hold something. */
  readonly before: readonly Row[];
};

/** Rows among which the head of the table is looked for. */
const headWithin = 25;

/** Finds the separator, the head and the three tables of a file. Of several ways to take it, the one whose head says most. */
export function tablesOf(text: string, byHand: ByHand = {}): Tables {
  const { body, told, skipped } = withoutMark(text);
  const options = (told === undefined ? separators : [told]).map((separator) => {
    const rows = csvRows(body, separator, headWithin);
    const found = headOf(rows, byHand);
    return { separator, ...found, widest: widest(rows) };
  });
  const best = options.reduce((a, b) => (b.score > a.score || (b.score === a.score && b.widest > a.widest) ? b : a));
  const rows = csvRows(body, best.separator).map((row) => moved(row, skipped));
  const at = best.at;
  const head = at === undefined ? undefined : rows[at];
  const columns = head ? columnsOf(head, byHand) : columnsByNumber(byHand, widest(rows));
  const half = head ? [] : halfHead(rows.slice(0, headWithin), byHand);
  const rest = rows.slice(at === undefined ? 0 : at + 1);
  const cut = (first: string, second: string) =>
    rest.findIndex((r) => folded(r.cells[0]?.text ?? '') === first && folded(r.cells[1]?.text ?? '') === second);
  const [partsAt, circuitAt] = [cut('part', 'kind'), cut('circuit', 'value')];
  const ends = [partsAt, circuitAt].filter((k) => k >= 0);
  const upTo = (from: number) => rest.slice(from + 1, Math.min(rest.length, ...ends.filter((k) => k > from)));
  const wires = rest.slice(0, Math.min(rest.length, ...ends));
  return {
    separator: best.separator,
    decimal: decimalOf(wires, columns, best.separator),
    language: languageOf(head),
    head,
    half,
    columns,
    absent: wireFields.flatMap((field): Tables['absent'] => {
      const wanted = byHand[field];
      if (wanted === undefined || [...columns, ...half].some((c) => c.field === field && c.isByHand)) return [];
      const at = placeOf(wanted, head?.cells.map((c) => c.text) ?? []);
      return [{ field, wanted, taken: columns.find((c) => c.at === at && c.isByHand) }];
    }),
    wires: wires.filter(isFilled),
    parts: partsAt < 0 ? [] : upTo(partsAt).filter(isFilled),
    circuit: circuitAt < 0 ? [] : upTo(circuitAt).filter(isFilled),
    before: rows.slice(0, at ?? 0).filter(isFilled),
  };
}

/** A list may have a million rows: more than a call takes arguments. */
export const widest = (rows: readonly Row[]): number => rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);

export const isFilled = (row: Row): boolean => row.cells.some((cell) => cell.text !== '');

/** Some programs write `sep=;` into the first line. */
function withoutMark(text: string): { body: string; told: Separator | undefined; skipped: number } {
  const first = /^sep=(.)\r?\n/.exec(text);
  const told = separators.find((s) => s === first?.[1]);
  return first && told !== undefined
    ? { body: text.slice(first[0].length), told, skipped: 1 }
    : { body: text, told: undefined, skipped: 0 };
}

function moved(row: Row, lines: number): Row {
  if (lines === 0) return row;
  return { line: row.line + lines, cells: row.cells.map((c) => ({ ...c, line: c.line + lines })) };
}

/** The row whose cells name most fields; a head has at least both ends. Named columns by hand count too. */
function headOf(rows: readonly Row[], byHand: ByHand): { at: number | undefined; score: number } {
  let best = { at: undefined as number | undefined, score: 0 };
  for (const [at, row] of rows.entries()) {
    const fields = new Set(columnsOf(row, byHand).flatMap((c) => (c.field === 'other' ? [] : [c.field])));
    const score = fields.has('from') && fields.has('to') && namesColumns(row, byHand) ? fields.size : 0;
    if (score > best.score) best = { at, score };
  }
  return best;
}

/** Columns of the first row that names one of the ends, where none names both. A single word for a column, `B`, may be what a wire says. */
function halfHead(rows: readonly Row[], byHand: ByHand): readonly Column[] {
  const isHalf = (row: Row) => {
    const heads = row.cells.map((c) => c.text);
    const columns = columnsOf(row, byHand);
    const words = heads.filter((text) => headRead(text, heads) !== undefined).length;
    const named = columns.filter((c) => c.isByHand && !isNumber(byHand[c.field as WireField]!)).length;
    return columns.some(isEnd) && (words > 1 || (words + named > 0 && heads.every((text) => !/\d/.test(text))));
  };
  const row = rows.find(isHalf);
  return row ? columnsOf(row, byHand) : [];
}

const isEnd = ({ field }: Column): boolean => field === 'from' || field === 'to';

/** With columns given by number, any row would do for a head: one has words for columns, or no figure where the ends stand. */
function namesColumns(row: Row, byHand: ByHand): boolean {
  const heads = row.cells.map((c) => c.text);
  if (heads.some((text) => headRead(text, heads) !== undefined)) return true;
  const ends = columnsOf(row, byHand).filter(isEnd);
  return ends.every((c) => !/\d/.test(c.head));
}

/** What each cell of the head says. Of two columns for one field the first counts, the second is another column. */
function columnsOf(head: Row, byHand: ByHand): readonly Column[] {
  const heads = head.cells.map((c) => c.text);
  const given = new Map<number, WireField>();
  for (const field of wireFields) {
    const wanted = byHand[field];
    if (wanted === undefined) continue;
    const at = placeOf(wanted, heads);
    if (at >= 0) given.set(at, field);
  }
  const taken = new Set(given.values());
  return heads.flatMap((text, at): readonly Column[] => {
    const known = headRead(text, heads);
    const hand = given.get(at);
    if (hand !== undefined) return [{ field: hand, head: text, at, unit: known?.unit, isByHand: true }];
    if (known && !taken.has(known.field)) {
      taken.add(known.field);
      return [{ field: known.field, head: text, at, unit: known.unit }];
    }
    return text === '' ? [] : [{ field: 'other', head: text, at, unit: undefined }];
  });
}

/** Where a column given by hand would be, by its head or else its number; below 0 for none. */
function placeOf(wanted: string, heads: readonly string[]): number {
  const named = heads.findIndex((h) => h === wanted || (folded(h) === folded(wanted) && folded(wanted) !== ''));
  return named < 0 && isNumber(wanted) ? Number(wanted) - 1 : named;
}

const isNumber = (wanted: string): boolean => /^\d{1,3}$/.test(wanted);

/** A file without a head, its columns numbered by hand. */
function columnsByNumber(byHand: ByHand, count: number): readonly Column[] {
  return wireFields.flatMap((field): readonly Column[] => {
    const at = Number(byHand[field] ?? Number.NaN) - 1;
    return Number.isInteger(at) && at >= 0 && at < count ? [{ field, head: `column ${at + 1}`, at, unit: undefined, isByHand: true }] : [];
  });
}

/** A comma is the decimal sign where areas or lengths have one before digits and none has a point. */
function decimalOf(rows: readonly Row[], columns: readonly Column[], separator: Separator): '.' | ',' {
  const cells = columns
    .filter((c) => c.field === 'area' || c.field === 'length')
    .flatMap((c) => rows.map((r) => r.cells[c.at]?.text ?? ''));
  const points = cells.some((t) => /\d\.\d/.test(t));
  const commas = cells.some((t) => /\d,\d/.test(t));
  if (points !== commas) return commas ? ',' : '.';
  return separator === ';' && !points ? ',' : '.';
}

/** The language that most of the heads are written in; English where it does not show. */
function languageOf(head: Row | undefined): Language {
  const votes: Record<Language, number> = { English: 0, German: 0, French: 0 };
  for (const { text } of head?.cells ?? []) {
    const { languages = [] } = headRead(text) ?? {};
    for (const language of languages) votes[language] += 1 / languages.length;
  }
  return (Object.keys(votes) as Language[]).reduce((a, b) => (votes[b] > votes[a] ? b : a));
}
