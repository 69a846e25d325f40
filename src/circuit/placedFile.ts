import type { Placed, Span, Tell } from './placed.ts';
import type { Problem } from './problem.ts';
import { saidShort } from './quotedShort.ts';

/** A file as placed data; `problem` and `tell` put a problem at a stretch of it. `root` is absent when nothing could be read. */
export type PlacedFile = {
  readonly root: Placed | undefined;
  readonly problems: Problem[];
  readonly tell: Tell;
  /** Line of an offset, 1-based. */
  readonly lineOf: (offset: number) => number;
};

/** Placed data about the text that it was read from, with no problem so far. */
export function placedFile(text: string, file: string, root: Placed | undefined): PlacedFile {
  const problems: Problem[] = [];
  const starts = [0];
  for (let k = text.indexOf('\n'); k >= 0; k = text.indexOf('\n', k + 1)) starts.push(k + 1);
  const lineOf = (offset: number) => lineAt(starts, offset);
  const tell: Tell = (at, problem) => problems.push({ severity: 'error', file, ...placeOf(at, starts, text), ...saidShort(problem) });
  return { root, problems, tell, lineOf };
}

/** Line of an offset, 1-based. @param starts offset of each line's beginning, rising from 0 */
function lineAt(starts: readonly number[], offset: number): number {
  let [low, high] = [0, starts.length];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (starts[middle]! <= offset) low = middle;
    else high = middle;
  }
  return low + 1;
}

/** Line and column of a stretch; its length ends with the line. */
function placeOf(span: Span, starts: readonly number[], text: string): Pick<Problem, 'line' | 'column' | 'length'> {
  const line = lineAt(starts, span.start);
  const rest = text.slice(span.start, span.end).split(/\r?\n/, 1)[0] ?? '';
  return { line, column: Math.max(1, span.start - starts[line - 1]! + 1), length: Math.max(1, rest.trimEnd().length) };
}
