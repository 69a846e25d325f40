import * as v from 'valibot';
import { parse, stringify } from 'yaml';
import type { Circuit } from '../circuit/circuit.ts';
import { tools as allTools, type Tool } from '../diagnose/candidates.ts';
import { readFinding } from '../diagnose/findingPhrase.ts';
import type { Fault } from '../faults/fault.ts';
import { readFault } from '../faults/faultPhrase.ts';
import type { Complaint } from './complaint.ts';
import type { Difficulty, Exercise } from './exercise.ts';
import { sealed, unsealed } from './seal.ts';
import { digestOfExercise } from './session.ts';

/** One exercise as it is written in a file. The faults are under the seal; all else may be read by anybody. */
export type WrittenExercise = v.InferOutput<typeof one>;
/** Several exercises travel as one file. */
export type ExerciseFile = { readonly title: string; readonly exercises: readonly WrittenExercise[] };

const text = (most = 4000) => v.pipe(v.string(), v.maxLength(most));
const whole = (min: number, max: number) => v.pipe(v.number(), v.integer(), v.minValue(min), v.maxValue(max));
const one = v.object({
  /** Path beside this file. */
  circuit: text(400),
  level: whole(1, 11),
  seed: whole(-2_147_483_648, 2_147_483_647),
  complaint: text(),
  told: v.array(text(400)),
  drain: v.optional(v.boolean(), false),
  tools: v.array(v.picklist(allTools)),
  readings: whole(0, 1000),
  minutes: v.pipe(v.number(), v.minValue(0)),
  rivals: whole(1, 100_000),
  /** `pass` where a pass-word is wanted before it can be begun. */
  opens: v.optional(v.picklist(['freely', 'pass']), 'freely'),
  digest: v.pipe(v.string(), v.regex(/^[0-9a-f]{16}$/)),
  sealed: v.pipe(v.string(), v.regex(/^([0-9a-f]{2})+$/), v.maxLength(20_000)),
});
const file = v.object({ title: v.optional(text(400), 'Exercises'), exercises: v.pipe(v.array(one), v.minLength(1), v.maxLength(500)) });

/** @param circuitPath how the circuit is found from beside the file */
export function writtenExercise(exercise: Exercise, circuitPath: string, pass = ''): WrittenExercise {
  const { level, seed, complaint, tools, difficulty, faults } = exercise;
  return {
    circuit: circuitPath,
    level: level.number,
    seed,
    complaint: complaint.text,
    told: complaint.told.map((f) => f.phrase),
    drain: complaint.drain,
    tools: [...tools],
    readings: difficulty.readings,
    minutes: Math.round(difficulty.minutes * 10) / 10,
    rivals: difficulty.rivals,
    opens: pass === '' ? 'freely' : 'pass',
    digest: digestOfExercise(exercise),
    sealed: sealed(faults.map((f) => f.phrase).join('\n'), saltOf(seed, circuitPath), pass),
  };
}

const saltOf = (seed: number, circuit: string): string => `detent exercise ${seed} ${circuit}`;

export const exerciseFileText = (exercises: ExerciseFile): string => stringify(exercises, { lineWidth: 110 });

/** Exercises put behind those of a set; one that is there already is not put in again. */
export function joinedSets(set: ExerciseFile | undefined, more: readonly WrittenExercise[], title: string): ExerciseFile {
  const before = set?.exercises ?? [];
  const fresh = more.filter((e) => !before.some((b) => b.digest === e.digest && b.circuit === e.circuit && b.level === e.level));
  return { title: set?.title ?? title, exercises: [...before, ...fresh] };
}

export type ReadFile = { readonly ok: true; readonly value: ExerciseFile } | { readonly ok: false; readonly why: string };

/** True for a text that holds exercises instead of a circuit. */
export const isExerciseFile = (words: string): boolean => /^["']?exercises["']?\s*:/m.test(words);

export function readExerciseFile(words: string): ReadFile {
  let held: unknown;
  try {
    held = parse(words, { maxAliasCount: 0 });
  } catch (error) {
    return { ok: false, why: `it is no YAML: ${error instanceof Error ? error.message.split('\n')[0] : 'unreadable'}` };
  }
  const read = v.safeParse(file, held);
  if (read.success) return { ok: true, value: read.output };
  const issue = read.issues[0];
  return { ok: false, why: `${v.getDotPath(issue) ?? 'the file'}: ${issue.message}` };
}

/** What a written exercise asks of a circuit: complaint, tools, difficulty, and with the right pass-word the faults. */
export type Opened = {
  readonly faults: readonly Fault[];
  readonly complaint: Complaint;
  readonly tools: readonly Tool[];
  readonly difficulty: Difficulty;
};

export function openedExercise(
  written: WrittenExercise,
  circuit: Circuit,
  pass = '',
): { readonly ok: true; readonly value: Opened } | { readonly ok: false; readonly why: string } {
  const phrases = unsealed(written.sealed, saltOf(written.seed, written.circuit), pass);
  if (phrases === undefined)
    return { ok: false, why: written.opens === 'pass' ? 'the pass-word is another' : 'the seal is broken: the file was changed by hand' };
  const faults = phrases.split('\n').flatMap((phrase) => {
    const read = readFault(phrase, circuit);
    return read.ok ? [read.value] : [];
  });
  if (faults.length === 0 || digestOfExercise({ faults, seed: written.seed }) !== written.digest)
    return { ok: false, why: 'the circuit is not the one that the exercise was made for' };
  const told = written.told.flatMap((phrase) => {
    const read = readFinding(phrase, circuit);
    return read.ok ? read.value : [];
  });
  const { complaint, drain, tools, readings, minutes, rivals } = written;
  return { ok: true, value: { faults, complaint: { text: complaint, told, drain }, tools, difficulty: { readings, minutes, rivals } } };
}
