import type { ReadingRow } from './diagnosisView.ts';

/** How the answer to a proposed reading is given. */
export type ReadingAsks =
  /** A figure; `phrase` makes the finding of it, `Infinity` stands for open. */
  | { readonly form: 'figure'; readonly unit: 'V' | 'A' | 'Ω'; readonly phrase: (value: number) => string }
  /** One of a few words, each with its finding. */
  | { readonly form: 'words'; readonly words: readonly { readonly word: string; readonly finding: string }[] };

const figure = /(?<=[ :])(-?[\d.]+(?:e-?\d+)?\s?[a-zA-Zµ]?(V|A|Ω)|open)(?= |$)/;
const words = ['works', 'weak', 'dead', 'comes and goes'];
const engineWords = ['fires', 'cranks', 'cranks slowly', 'runs', 'dies', 'still'];
const outcomes = ['cured', 'no change', 'changes'];

/** What a reading asks for, taken from the findings that its outcomes would be noted as. */
export function readingAsks(row: Pick<ReadingRow, 'outcomes'>): ReadingAsks {
  const told = row.outcomes.map((o) => o.finding);
  const said = told.map((t) => figure.exec(t.slice(t.indexOf(':') + 1)));
  const first = said.find((s) => s !== null && s[2] !== undefined) ?? said.find((s) => s !== null);
  if (first && told.length > 0) {
    const unit = (first[2] ?? 'Ω') as 'V' | 'A' | 'Ω';
    const pattern = told[said.indexOf(first)]!;
    const colon = pattern.indexOf(':') + 1;
    const put = (text: string) => pattern.slice(0, colon) + pattern.slice(colon).replace(figure, text);
    return { form: 'figure', unit, phrase: (value) => put(value === Number.POSITIVE_INFINITY ? 'open' : `${value} ${unit}`) };
  }
  const pattern = told[0] ?? '';
  const all = /: engine /.test(pattern) ? engineWords : /: (cured|no change|changes)$/.test(pattern) ? outcomes : words;
  const own = [...all].sort((a, b) => b.length - a.length).find((w) => pattern.endsWith(` ${w}`));
  const stem = own === undefined ? pattern : pattern.slice(0, -own.length);
  return { form: 'words', words: all.map((word) => ({ word, finding: stem + word })) };
}
