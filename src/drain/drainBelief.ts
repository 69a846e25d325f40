import type { Circuit } from '../circuit/circuit.ts';
import type { FaultMode } from '../circuit/part.ts';
import { belief, type DiagnoseOptions } from '../diagnose/diagnose.ts';
import type { Finding } from '../diagnose/finding.ts';
import { singleHypotheses } from '../diagnose/hypotheses.ts';
import { Predictor } from '../diagnose/predict.ts';
import { type Suspect, suspectsOf } from '../diagnose/suspects.ts';
import { type CaseVerdict, caseVerdict } from '../diagnose/verdict.ts';
import type { Fault } from '../faults/fault.ts';
import { keyOffScene } from './keyOff.ts';
import { takenAt } from './taken.ts';

/** Draws that count as a drain: a clamp's zero drifts by as much as this, A (clamp data sheets, secondary). */
export const least_A = 0.01;

/** Above this it is a short: a wire burns or a fuse blows before anybody asks about a flat battery, A (estimate). */
export const most_A = 30;

/** A single fault with which the vehicle draws more than it should, and how much. */
export type DrainFault = { readonly faults: readonly Fault[]; readonly prior: number; readonly amperes: number; readonly inside: number };

const known = new WeakMap<Predictor, readonly DrainFault[]>();

/**
 * Every single fault, in each of its grades, that draws at least 10 mA more with the key out than the healthy
 * vehicle and at most 30 A, or discharges the battery inside itself; where it comes and goes, while it is there.
 *
 * Cost: one update for each fault of the circuit, once.
 */
export function drainFaults(predictor: Predictor): readonly DrainFault[] {
  const before = known.get(predictor);
  if (before) return before;
  const { circuit, vehicles } = predictor;
  const scene = keyOffScene(circuit);
  const sound = takenAt(vehicles.answer(vehicles.healthy, scene));
  const found = singleHypotheses(circuit).flatMap(({ faults, prior }): readonly DrainFault[] => {
    const worlds = vehicles.of(faults).map((v) => takenAt(vehicles.answer(v, scene)));
    const amperes = Math.max(...worlds.map((w) => w.amperes));
    const inside = Math.max(...worlds.map((w) => w.inside));
    const drains = amperes - sound.amperes >= least_A && amperes <= most_A;
    return drains || inside - sound.inside >= least_A ? [{ faults, prior, amperes, inside }] : [];
  });
  known.set(predictor, found);
  return found;
}

/** Fault modes that draw current with the key out, in one grade at least. */
export const drawingModes = (predictor: Predictor): ReadonlySet<FaultMode> =>
  new Set(drainFaults(predictor).flatMap((d) => d.faults.map((f) => f.mode)));

/** Who is suspected, and how the case stands; `verdict` only once something was read. */
export type DrainCase = {
  readonly suspects: readonly Suspect[];
  readonly findings: readonly Finding[];
  readonly verdict: CaseVerdict | undefined;
};

/**
 * Who is suspected. With findings by the diagnosis engine over all faults; without any, everything that would draw
 * current with the key out, by its prior, since a drain is what the question is about.
 */
export function drainCase(
  circuit: Circuit,
  findings: readonly Finding[],
  options: DiagnoseOptions = {},
  predictor: Predictor = new Predictor(circuit),
): DrainCase {
  if (findings.length > 0) {
    const { suspects, findings: said, clashes } = belief(circuit, findings, options, predictor);
    // Which reading comes next is the drain's own question: the plan.
    return { suspects, findings: said, verdict: caseVerdict(suspects, said, clashes, [], []) };
  }
  const drawing = new Set(drainFaults(predictor).map((d) => d.faults));
  const weighed = singleHypotheses(circuit, options.history, options.weights)
    .filter((h) => drawing.has(h.faults))
    .map((hypothesis) => ({ hypothesis, fits: [], score: Math.log(hypothesis.prior) }));
  return { suspects: suspectsOf(weighed, []), findings, verdict: undefined };
}
