export const separators = [',', ';', '\t', '|'] as const;
export type Separator = (typeof separators)[number];

/** One cell of a table file, with its place: line and column 1-based, length of what stands there at least 1. */
export type Cell = { readonly text: string; readonly line: number; readonly column: number; readonly length: number };
export type Row = { readonly cells: readonly Cell[]; readonly line: number };

/**
 * Rows of a file with separated cells. Quotes double inside quotes; a quote within a bare cell is a sign like any other;
 * a quote that never closes ends with its line, so that one slip does not swallow the file.
 *
 * @param most  rows after which reading stops
 * Cost: linear; an unclosed quote is looked for once per cell that opens one, up to 10 000 signs on.
 */
export function csvRows(text: string, separator: Separator, most = Number.POSITIVE_INFINITY): readonly Row[] {
  const rows: Row[] = [];
  let cells: Cell[] = [];
  let line = 1;
  let lineStart = 0;
  let rowLine = 1;
  let at = 0;
  while (at <= text.length && rows.length < most) {
    const from = at;
    const cellLine = line;
    const column = from - lineStart + 1;
    const end = text[at] === '"' ? closing(text, at, separator) : -1;
    let held: string;
    if (end >= 0) {
      held = text.slice(at + 1, end).replaceAll('""', '"');
      for (let k = text.indexOf('\n', at); k >= 0 && k < end; k = text.indexOf('\n', k + 1)) {
        line++;
        lineStart = k + 1;
      }
      at = end + 1;
      // What follows a closing quote belongs to the cell as it stands.
      const rest = bareEnd(text, at, separator);
      held += text.slice(at, rest);
      at = rest;
    } else {
      at = bareEnd(text, at, separator);
      held = text.slice(from, at);
    }
    cells.push({ text: unguarded(held.trim()), line: cellLine, column, length: Math.max(1, cellLine === line ? at - from : 1) });
    if (text[at] === separator) {
      at++;
      continue;
    }
    rows.push({ cells, line: rowLine });
    cells = [];
    if (at >= text.length) break;
    at += text[at] === '\r' && text[at + 1] === '\n' ? 2 : 1;
    line++;
    lineStart = at;
    rowLine = line;
    if (at >= text.length) break;
  }
  return rows;
}

function bareEnd(text: string, from: number, separator: Separator): number {
  let k = from;
  while (k < text.length && text[k] !== separator && text[k] !== '\n' && text[k] !== '\r') k++;
  return k;
}

/**
 * The quote that closes the one at `open`, or -1. On another line only one that ends its cell: else the next quote of the
 * file would take the lines between along.
 */
function closing(text: string, open: number, separator: Separator): number {
  const last = Math.min(text.length, open + 10_000);
  for (let k = open + 1; k < last; k++) {
    if (text[k] !== '"') continue;
    if (text[k + 1] === '"') k++;
    else {
      const ends = /^[ \t]*$/.test(text.slice(k + 1, bareEnd(text, k + 1, separator)));
      return ends || !/[\r\n]/.test(text.slice(open, k)) ? k : -1;
    }
  }
  return -1;
}

/** One line of a table file, without its end. */
export function csvLine(cells: readonly string[], separator: Separator): string {
  return cells.map((cell) => csvCell(cell, separator)).join(separator);
}

function csvCell(text: string, separator: Separator): string {
  const safe = guarded(text);
  // A blank at either end is taken for padding, so it has to be kept by nothing: texts of a circuit have none.
  return safe.includes(separator) || /["\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** A table program computes what begins like a formula; an apostrophe before it keeps it text, and is taken off again. */
function guarded(text: string): string {
  return /^'*[=+\-@]/.test(text) && !/^[+-]?\d+([.,]\d+)?$/.test(text) ? `'${text}` : text;
}
function unguarded(text: string): string {
  return /^'+[=+\-@]/.test(text) ? text.slice(1) : text;
}
