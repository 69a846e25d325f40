import type { Circuit } from '../circuit/circuit.ts';
import type { FaultMode } from '../circuit/part.ts';
import { type Fault, faultOf } from '../faults/fault.ts';
import { faultModes, suspectName } from '../faults/faultModes.ts';
import { historyFactor } from './prior.ts';

/** A set of faults that could be in, one grade of each. The empty set is the healthy vehicle. */
export type Hypothesis = {
  readonly faults: readonly Fault[];
  /** P(set): of single faults and none the sum is one; of several at once it is relative to that. */
  readonly prior: number;
  /** The same for all grades of the same faults: one suspect. */
  readonly suspect: string;
};

/** Chance that the vehicle is healthy after all when somebody complains (estimate: a habit of the vehicle, or a slip). */
export const healthyShare = 0.02;
/** Odds of a second independent fault once there is one (estimate; lesson of practice: two at once do happen). */
export const secondFault = 0.03;

/** User's own weights: suspect phrase without detail -> factor. */
export type Weights = Readonly<Record<string, number>>;

type Single = {
  readonly faults: readonly Fault[];
  readonly part: string;
  readonly mode: FaultMode;
  readonly share: number;
  readonly suspect: string;
};

const known = new WeakMap<Circuit, readonly Single[]>();
/** Made once a circuit, so that what was predicted for a set of faults is found again by the set itself. */
function singlesOf(circuit: Circuit): readonly Single[] {
  const before = known.get(circuit);
  if (before) return before;
  const made = faultModes(circuit).flatMap(({ part, mode }) => {
    const grades = mode.detail?.grades.length ? mode.detail.grades : [undefined];
    return grades.map((grade) => ({
      faults: [faultOf(part, mode, grade)],
      part,
      mode,
      share: 1 / grades.length,
      suspect: suspectName(mode),
    }));
  });
  known.set(circuit, made);
  return made;
}

const healthy: readonly Fault[] = [];

/** No fault, and every single fault of the circuit in each of its grades; a mode's prior is shared among its grades. */
export function singleHypotheses(circuit: Circuit, history: readonly string[] = [], weights: Weights = {}): readonly Hypothesis[] {
  const drafts = singlesOf(circuit).map(({ faults, part, mode, share, suspect }) => {
    const factor = historyFactor(history, part, mode).factor * (weights[suspect] ?? 1);
    return { faults, weight: mode.weight * share * factor, suspect };
  });
  const total = drafts.reduce((sum, d) => sum + d.weight, 0) || 1;
  return [
    { faults: healthy, prior: healthyShare, suspect: '' },
    ...drafts.map(({ faults, weight, suspect }) => ({ faults, prior: ((1 - healthyShare) * weight) / total, suspect })),
  ];
}

/** Pairs kept, so that what was asked of one is found again; then they are begun anew, for each keeps its answers (estimate: some rounds of a search). */
const mostJoined = 30_000;
let joined = new WeakMap<readonly Fault[], WeakMap<readonly Fault[], readonly Fault[]>>();
let joinedSoFar = 0;

/** Two hypotheses at once: independent, the further fault at the odds of a second one. */
export function together(a: Hypothesis, b: Hypothesis): Hypothesis {
  if (joinedSoFar >= mostJoined) [joined, joinedSoFar] = [new WeakMap(), 0];
  const withA = joined.get(a.faults) ?? new WeakMap<readonly Fault[], readonly Fault[]>();
  joined.set(a.faults, withA);
  const known = withA.get(b.faults);
  const faults = known ?? [...a.faults, ...b.faults];
  if (!known) {
    withA.set(b.faults, faults);
    joinedSoFar++;
  }
  const suspect = [...a.suspect.split(' + '), ...b.suspect.split(' + ')].sort().join(' + ');
  return { faults, prior: a.prior * b.prior * secondFault, suspect };
}

/** All grades of each suspect, in the order of the list. */
export function bySuspect<T>(list: readonly T[], hypothesisOf: (item: T) => Hypothesis): ReadonlyMap<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of list) {
    const { suspect } = hypothesisOf(item);
    const group = groups.get(suspect);
    if (group) group.push(item);
    else groups.set(suspect, [item]);
  }
  return groups;
}
