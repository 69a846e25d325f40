import * as v from 'valibot';
import { nodeAt, tellIssues } from '../circuit/issueProblem.ts';
import { plainData, spanAt } from '../circuit/placed.ts';
import type { Problem, Read } from '../circuit/problem.ts';
import { writtenMap } from '../circuit/shape.ts';
import { writtenName, writtenNames } from '../circuit/written.ts';
import { yamlTree } from '../circuit/yamlTree.ts';

/** A phrase of a job file with its place, so that what is wrong with it can be shown there. */
export type WrittenPhrase = { readonly text: string; readonly line: number };

/** One vehicle on one day, as it is written down. */
export type Job = {
  /** Path beside the job file, or the text of a circuit that travels inside it. */
  readonly circuit: { readonly path: string } | { readonly text: string; readonly line: number };
  readonly vehicle: string;
  readonly complaint: string;
  readonly history: readonly string[];
  readonly findings: readonly WrittenPhrase[];
  /** What was repaired, and what was seen afterwards: `replaced S1: cured`, `ON: T1 works`. */
  readonly repair: readonly WrittenPhrase[];
};

const shape = writtenMap({
  circuit: v.unknown(),
  vehicle: v.optional(writtenName()),
  complaint: v.optional(writtenName()),
  history: v.optional(writtenNames()),
  findings: v.optional(writtenNames()),
  repair: v.optional(writtenNames()),
  faults: v.optional(writtenNames()),
});

/** True for a text that names a circuit instead of being one. */
export const isJobFile = (text: string): boolean => /^\s*["']?circuit["']?\s*:/m.test(text) && !/^["']?parts["']?\s*:/m.test(text);

/**
 * Reads a job file. The phrases in it are read once the circuit stands.
 *
 * Problems: not-a-job, and those of the shape of any file.
 */
export function readJob(text: string, file: string): Read<Job> {
  const { root, problems, tell, lineOf } = yamlTree(text, file);
  if (root?.is !== 'map') {
    if (problems.length === 0)
      tell(root?.span ?? { start: 0, end: 1 }, {
        code: 'not-a-job',
        what: 'the file holds no job',
        why: 'there is nothing to search from',
        mend: ['begin with `circuit: light-van.yaml`, then `findings: [ … ]`'],
      });
    return { ok: false, problems };
  }
  const parsed = v.safeParse(shape, unquoted(plainData(root)));
  if (!parsed.success) tellIssues(parsed.issues, { root, about: '', why: () => 'the job cannot be told without it' }, tell);
  const isSound = problems.every((p) => p.severity === 'warning');
  if (!parsed.success || !isSound) return { ok: false, problems };
  const { vehicle = '', complaint = '', history = [], findings = [], repair = [] } = parsed.output;
  const phrases = (key: string, list: readonly string[]): readonly WrittenPhrase[] =>
    list.map((phrase, k) => {
      const path = nodeAt(root, [key])?.is === 'list' ? [key, k] : [key];
      return { text: phrase, line: lineOf(spanAt(root, path).start) };
    });
  const node = nodeAt(root, ['circuit'])!;
  const circuit =
    node.is === 'text' ? { path: node.text } : { text: JSON.stringify(plainData(node), null, 1), line: lineOf(node.span.start) };
  return {
    ok: true,
    value: { circuit, vehicle, complaint, history, findings: phrases('findings', findings), repair: phrases('repair', repair) },
    problems,
  };
}

/** `- ON: T1 dead` without quotes is a map to YAML; it is taken as the phrase that it was meant for. */
function unquoted(held: unknown): unknown {
  if (typeof held !== 'object' || held === null) return held;
  const phrase = (x: unknown): unknown => {
    if (typeof x !== 'object' || x === null || Array.isArray(x)) return x;
    const [entry, more] = Object.entries(x);
    return entry && !more && typeof entry[1] === 'string' ? `${entry[0]}: ${entry[1]}` : x;
  };
  return Object.fromEntries(
    Object.entries(held).map(([key, x]) => [key, ['findings', 'repair', 'history'].includes(key) && Array.isArray(x) ? x.map(phrase) : x]),
  );
}

/** Problems of a circuit inside a job, told at the line where it begins: its own lines are not those of the file. */
export const atLine = (problems: readonly Problem[], file: string, line: number): readonly Problem[] =>
  problems.map((p) => ({ ...p, file, line, column: 1, length: 1 }));
