import type { Circuit } from '../circuit/circuit.ts';
import { type Fault, faultOf } from '../faults/fault.ts';
import { faultModes, suspectName } from '../faults/faultModes.ts';
import { historyFactor } from './prior.ts';

/** A set of faults that could be in, one grade of each. The empty set is the healthy vehicle. */
export type Hypothesis = {
  readonly faults: readonly Fault[];
  /** P(set), normalised over the sets that were made. */
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

/** No fault, and every single fault of the circuit in each of its grades; a mode's prior is shared among its grades. */
export function singleHypotheses(circuit: Circuit, history: readonly string[] = [], weights: Weights = {}): readonly Hypothesis[] {
  const drafts: { faults: Fault[]; weight: number; suspect: string }[] = [];
  for (const { part, mode } of faultModes(circuit)) {
    const suspect = suspectName(mode);
    const factor = historyFactor(history, part, mode).factor * (weights[suspect] ?? 1);
    const grades = mode.detail?.grades.length ? mode.detail.grades : [undefined];
    for (const grade of grades)
      drafts.push({ faults: [faultOf(part, mode, grade)], weight: (mode.weight * factor) / grades.length, suspect });
  }
  const total = drafts.reduce((sum, d) => sum + d.weight, 0) || 1;
  return [
    { faults: [], prior: healthyShare, suspect: '' },
    ...drafts.map((d) => ({ faults: d.faults, prior: ((1 - healthyShare) * d.weight) / total, suspect: d.suspect })),
  ];
}

/** Two or three hypotheses at once: independent, each further fault at the odds of a second one. */
export function together(parts: readonly Hypothesis[]): Hypothesis {
  const prior = parts.reduce((product, h) => product * h.prior, secondFault ** (parts.length - 1));
  return {
    faults: parts.flatMap((h) => h.faults),
    prior,
    suspect: parts
      .map((h) => h.suspect)
      .sort()
      .join(' + '),
  };
}
