import type { Problem } from '../circuit/problem.ts';
import { problemText } from '../report/problemText.ts';
import type { Io } from './io.ts';

/** One option of a command. `--json` and `--help` belong to every command and are not listed. */
export type Option = {
  readonly type: 'string' | 'boolean';
  /** May be given more than once. */
  readonly multiple?: true;
  readonly short?: string;
  /** What stands after it in the help: `FAULT`. */
  readonly value?: string;
  readonly about: string;
};

/** What was typed after the command's name. */
export type Args = {
  readonly positionals: readonly string[];
  /** Last value of an option, undefined when it was not given. */
  readonly text: (name: string) => string | undefined;
  /** All values of an option, in order. */
  readonly texts: (name: string) => readonly string[];
  readonly flag: (name: string) => boolean;
  readonly json: boolean;
};

/** Exit codes: 0 done, 1 the circuit or the input has problems, 2 the command line is wrong. */
export type Exit = 0 | 1 | 2;

/** A command: one file in `commands/`, one line in `commands/index.ts`. */
export type Command = {
  readonly name: string;
  /** Without `detent`: `check FILE…`. */
  readonly usage: string;
  /** One line. */
  readonly about: string;
  readonly options?: Readonly<Record<string, Option>>;
  /** How many positionals it takes; `most` absent: any number. */
  readonly takes: { readonly least: number; readonly most?: number };
  /** Two worked lines: what to type, without `detent`, and what it gives. */
  readonly examples: readonly [Example, Example, ...Example[]];
  readonly run: (args: Args, io: Io) => Exit | Promise<Exit>;
};
type Example = { readonly line: string; readonly gives: string };

/**
 * Says problems: as JSON on the standard output when `--json` was given, else as text on the error output.
 *
 * @param texts source texts by file name, for the line with the caret
 * @returns 1 when one of them is an error, else 0
 */
export function sayProblems(
  problems: readonly Problem[],
  args: Pick<Args, 'json'>,
  io: Io,
  texts: ReadonlyMap<string, string> = new Map(),
): Exit {
  const isFailed = problems.some((p) => p.severity === 'error');
  if (args.json) {
    // Warnings beside an answer do not replace it: the answer's own JSON carries what belongs to it.
    if (isFailed) printJson({ problems }, io);
  } else for (const problem of problems) io.printError(`${problemText(problem, texts.get(problem.file), { colour: io.colourError })}\n`);
  return isFailed ? 1 : 0;
}

/** JSON as outsiders read it: 2 spaces; numbers that JSON has no sign for become null. */
export function printJson(data: unknown, io: Io): void {
  io.print(JSON.stringify(data, null, 2));
}
