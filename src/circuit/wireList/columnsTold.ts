import type { Problem } from '../problem.ts';
import type { Row } from './csv.ts';
import { wordsFor } from './headerWords.ts';
import { type Tables, widest } from './tables.ts';

/** A column given by hand that was not read. */
export function notFound({ field, wanted, taken }: Tables['absent'][number], { head }: Tables): Told {
  const heads = headsOf(head);
  const isNumber = /^\d+$/.test(wanted);
  const none = isNumber
    ? `no column is called \`${wanted}\`, and none has that number`
    : head
      ? `no column is called \`${wanted}\``
      : `\`${wanted}\` is no column: no head row with both ends was found`;
  return {
    code: 'column-not-found',
    severity: 'warning',
    what: taken ? `column \`${wanted}\` was given to \`${taken.field}\` and to \`${field}\`` : none,
    why: taken ? 'a column says one thing' : `\`${field}\` is read as if it had not been given by hand`,
    mend: [heads.length > 0 ? `columns: ${heads.map((h) => `\`${h}\``).join(', ')}` : 'columns are numbered from 1, from the left'],
  };
}

export type Told = Omit<Problem, 'file' | 'line' | 'column' | 'length'>;

const headsOf = (head: Row | undefined): readonly string[] => head?.cells.map((c) => c.text).filter((t) => t !== '') ?? [];

/** What is told when an end of the wires has no column. @param ends  those that no column is for, one or both */
export function noEnds(ends: readonly ('from' | 'to')[], { half, columns, wires }: Tables): Told {
  const unnamed = ends.filter((end) => !half.some((c) => c.field === end));
  const missing = unnamed.length > 0 ? unnamed : ends;
  const words = (end: 'from' | 'to') =>
    wordsFor(end)
      .map((w) => `\`${w}\``)
      .join(' or ');
  const wanted = columnFor(missing[0]!, half, columns, widest(wires));
  return {
    code: 'column-missing',
    severity: 'error',
    what: `no column says where the wires ${missing.map((m) => (m === 'from' ? 'begin' : 'end')).join(' and ')}`,
    why: 'without both ends there are no wires',
    mend: [
      `head the column ${missing.map(words).join(', and the other ')}`,
      ...(wanted === undefined ? [] : [`or name it by hand: \`--column ${missing[0]}=${wanted}\``]),
    ],
  };
}

/** How a column for an end could be given by hand: one that says nothing else yet, by its head or else its number. */
function columnFor(end: 'from' | 'to', half: Tables['half'], columns: Tables['columns'], width: number): string | undefined {
  const own = half.find((c) => c.field === end);
  if (own) return String(own.at + 1);
  const free = half.find((c) => c.field === 'other');
  if (free) return `"${free.head}"`;
  const taken = new Set([...half, ...columns].map((c) => c.at));
  const at = Array.from({ length: Math.max(1, width) }, (_, k) => k).find((k) => !taken.has(k));
  return at === undefined ? undefined : String(at + 1);
}
