/** A table as data. Cells are plain text; a line break in a cell is kept. */
export type TextTable = {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Columns set to the right, for figures. */
  readonly right?: readonly number[];
  /** Columns whose text may be broken between words when the table is too wide. */
  readonly wraps?: readonly number[];
  /** How many columns are repeated when the table must be split into several, one under the other; 1 unless told. */
  readonly keeps?: number;
};

const gap = 2;
/** Narrowest that a breaking column may become. */
const least = 12;

/**
 * Lays out a table in at most `width` characters per line: first by breaking the text of the columns that allow it,
 * then by splitting the table, its first columns repeated. Only a single column wider than the line runs over it.
 *
 * Cost: linear in the text.
 */
export function textTable(table: TextTable, width = 80): string {
  const count = table.head.length;
  const natural = Array.from({ length: count }, (_, c) => Math.max(...[table.head, ...table.rows].map((row) => widest(row[c] ?? ''))));
  const keeps = Math.min(table.keeps ?? 1, count);
  const blocks = split(table, natural, keeps, width);
  return blocks.map((columns) => block(table, columns, natural, width)).join('\n\n');
}

/** Columns of each block. Breaking columns count with their least width. */
function split(table: TextTable, natural: readonly number[], keeps: number, width: number): number[][] {
  const need = (c: number) => gap + (table.wraps?.includes(c) ? Math.min(natural[c]!, least) : natural[c]!);
  const kept = Array.from({ length: keeps }, (_, c) => c);
  const base = kept.reduce((sum, c) => sum + need(c), -gap);
  const blocks: number[][] = [];
  let columns = [...kept];
  let used = base;
  for (let c = keeps; c < natural.length; c++) {
    if (used + need(c) > width && columns.length > keeps) {
      blocks.push(columns);
      columns = [...kept];
      used = base;
    }
    columns.push(c);
    used += need(c);
  }
  return [...blocks, columns];
}

function block(table: TextTable, columns: readonly number[], natural: readonly number[], width: number): string {
  const widths = fitted(columns, natural, table.wraps ?? [], width);
  const line = (cells: readonly string[]): string[] => {
    const broken = columns.map((c, k) => wrapped(cells[c] ?? '', widths[k]!));
    const height = Math.max(1, ...broken.map((lines) => lines.length));
    return Array.from({ length: height }, (_, row) =>
      broken
        .map((lines, k) => {
          const text = lines[row] ?? '';
          const room = ' '.repeat(Math.max(0, widths[k]! - size(text)));
          return table.right?.includes(columns[k]!) ? room + text : text + room;
        })
        .join(' '.repeat(gap))
        .trimEnd(),
    );
  };
  const rule = widths.map((w) => '─'.repeat(w)).join(' '.repeat(gap));
  return [...line(table.head), rule, ...table.rows.flatMap(line)].join('\n');
}

/** Takes what is too much from the widest breaking column, a character at a time. */
function fitted(columns: readonly number[], natural: readonly number[], wraps: readonly number[], width: number): number[] {
  const widths = columns.map((c) => natural[c]!);
  const breaking = columns.flatMap((c, k) => (wraps.includes(c) ? [k] : []));
  let over = widths.reduce((sum, w) => sum + w + gap, -gap) - width;
  while (over > 0) {
    const k = breaking.reduce<number | undefined>(
      (best, at) => (widths[at]! > least && (best === undefined || widths[at]! > widths[best]!) ? at : best),
      undefined,
    );
    if (k === undefined) break;
    widths[k]!--;
    over--;
  }
  return widths;
}

/** Breaks a text between words into lines of at most `width` characters; a longer word stands alone, or is cut when it exceeds the line. */
export function wrapped(text: string, width: number): string[] {
  return text.split('\n').flatMap((paragraph) => {
    const lines: string[] = [];
    let line = '';
    for (const word of paragraph.split(' ')) {
      if (line !== '' && size(line) + 1 + size(word) > width) {
        lines.push(line);
        line = '';
      }
      line = line === '' ? word : `${line} ${word}`;
      while (size(line) > width) {
        lines.push([...line].slice(0, width).join(''));
        line = [...line].slice(width).join('');
      }
    }
    return [...lines, line];
  });
}

/** Columns that a text takes in a terminal: characters, not UTF-16 units; marks that combine with the one before take none. */
function size(text: string): number {
  let columns = 0;
  for (const c of text) if (!/\p{Mn}/u.test(c)) columns++;
  return columns;
}

function widest(text: string): number {
  return Math.max(...text.split('\n').map(size));
}
