import { hiddenCharacters } from '../circuit/hiddenCharacters.ts';
import type { Problem } from '../circuit/problem.ts';

/** Widest piece of a source line shown; a longer line is cut around the place. */
const shownWidth = 96;

/**
 * A problem as text: place and code, the fact, the source line with a caret under the place, why, mends.
 *
 * @param sourceText the file that the place counts in; without it no line is shown
 * @param look.colour marks code and caret; every word stands without it too
 */
export function problemText(problem: Problem, sourceText?: string, look: { readonly colour: boolean } = { colour: false }): string {
  const bright = paint(problem.severity === 'error' ? '1;31' : '1;33', look.colour);
  const faint = paint('2', look.colour);
  const bold = paint('1', look.colour);
  const { file, line, column, code, severity } = problem;
  const head = `${bold(visible(`${file}:${line}:${column}`))}  ${bright(code)}${severity === 'warning' ? '  (warning)' : ''}`;
  const lines = [head, `  ${visible(problem.what)}`];
  const source = sourceText?.split(/\r?\n/)[line - 1];
  if (source !== undefined && source.trim() !== '') {
    const { text, column: at } = cut(source, column);
    const length = Math.max(1, Math.min(problem.length, text.length - at + 1));
    const margin = `  ${line} | `;
    lines.push(
      faint(margin) + visible(text),
      `${' '.repeat(margin.length - 2)}${faint('|')} ${' '.repeat(at - 1)}${bright('^'.repeat(length))}`,
    );
  }
  lines.push(`  why   ${visible(problem.why)}`);
  for (const mend of problem.mend) lines.push(`  mend  ${visible(mend)}`);
  return lines.join('\n');
}

/** How many there are, in words: `2 problems, 1 warning`; `no problems`. */
export function problemCount(problems: readonly Problem[]): string {
  const errors = problems.filter((p) => p.severity === 'error').length;
  const warnings = problems.length - errors;
  const counted = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`;
  return [
    errors > 0 || warnings === 0 ? (errors === 0 ? 'no problems' : counted(errors, 'problem')) : '',
    warnings > 0 ? counted(warnings, 'warning') : '',
  ]
    .filter((s) => s !== '')
    .join(', ');
}

const hidden = new RegExp(`[\n${hiddenCharacters}]`, 'g');

/** Control characters and direction marks as a middle dot: a file must not drive the terminal that shows it. Tabs are one column wide, as the caret counts them. */
export function visible(text: string): string {
  return text.replaceAll('\t', ' ').replace(hidden, '·');
}

function paint(code: string, colour: boolean): (text: string) => string {
  return (text) => (colour ? `\u001b[${code}m${text}\u001b[0m` : text);
}

function cut(source: string, column: number): { text: string; column: number } {
  if (source.length <= shownWidth) return { text: source, column: Math.min(column, source.length + 1) };
  const start = Math.max(0, Math.min(column - 1 - 32, source.length - shownWidth));
  const piece = source.slice(start, start + shownWidth);
  const before = start > 0 ? '… ' : '';
  return { text: `${before}${piece}${start + shownWidth < source.length ? ' …' : ''}`, column: column - start + before.length };
}
