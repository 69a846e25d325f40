import type { Problem } from '../../src/circuit/problem.ts';
import { problemText } from '../../src/report/problemText.ts';

/** What a reader may give: a value without an error among its problems, or a refusal that says why. */
type Given = { readonly ok: boolean; readonly problems: readonly Problem[] };

/** What is wrong with an answer to an input; undefined when it is sound. */
export function unsound({ ok, problems }: Given, text: string): string | undefined {
  const errors = problems.filter((p) => p.severity === 'error').length;
  if (ok && errors > 0) return `accepted with ${errors} errors`;
  if (!ok && errors === 0) return 'refused without a word';
  for (const problem of problems) {
    const why = unsoundProblem(problem, text);
    if (why !== undefined) return `${problem.code}: ${why}`;
  }
  return undefined;
}

function unsoundProblem(p: Problem, text: string): string | undefined {
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(p.code)) return 'its code is no word';
  if (p.file === '') return 'names no file';
  if (!(Number.isInteger(p.line) && p.line >= 1 && Number.isInteger(p.column) && p.column >= 1)) return `stands at ${p.line}:${p.column}`;
  if (!(p.length >= 1)) return `covers ${p.length} characters`;
  if (p.line > text.split('\n').length) return `line ${p.line} is beyond the text`;
  if (p.what.trim() === '') return 'says no fact';
  if (p.why.trim() === '') return 'says not what it costs';
  if (p.mend.length === 0 || p.mend.some((m) => m.trim() === '')) return 'says not how to mend it';
  const words = [p.what, p.why, ...p.mend].join('\n');
  // A word of the input may be quoted; the program's own slips may not.
  for (const slip of ['undefined', '[object ', 'NaN', 'function '])
    if (words.includes(slip) && !text.includes(slip.trim())) return `says ${slip}: ${words.slice(0, 200)}`;
  if (words.length > 4000) return `${words.length} characters long`;
  const shown = problemText(p, text);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: what an input holds must not drive the terminal
  if (/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/.test(shown))
    return 'lets signs through that drive a terminal';
  return undefined;
}
