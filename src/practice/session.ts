import type { Action } from './action.ts';
import { type Around, type Bench, newBench } from './bench.ts';
import type { Exercise } from './exercise.ts';
import { digestOf } from './seal.ts';
import { update } from './update.ts';

/**
 * What is kept of an exercise under way: nothing in it names the fault. Circuit, level, seed and the candidate find it
 * again through the generator; what was read is worked out again from the actions.
 */
export type KeptExercise = {
  readonly level: number;
  readonly seed: number;
  readonly candidate: number;
  /** Fingerprint of the answer, to tell that the circuit has not changed meanwhile. */
  readonly digest: string;
  readonly actions: readonly Action[];
};

export const kept = (exercise: Exercise, bench: Bench): KeptExercise => ({
  level: exercise.level.number,
  seed: exercise.seed,
  candidate: exercise.candidate,
  digest: digestOfExercise(exercise),
  actions: bench.steps.map((s) => s.action),
});

export const digestOfExercise = ({ faults, seed }: Pick<Exercise, 'faults' | 'seed'>): string =>
  digestOf(faults.map((f) => f.phrase).join(' + '), `exercise ${seed}`);

/** The bench after a list of actions. */
export const replayed = (around: Around, actions: readonly Action[]): Bench =>
  actions.reduce((bench, action) => update(around, bench, action), newBench(around.hidden.circuit));
