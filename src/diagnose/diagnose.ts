import type { Circuit } from '../circuit/circuit.ts';
import type { Tool } from './candidates.ts';
import type { Finding } from './finding.ts';
import { singleHypotheses, type Weights } from './hypotheses.ts';
import { type NextReading, nextReadings } from './nextReading.ts';
import { Predictor, tells } from './predict.ts';
import { pairs, triples } from './severalFaults.ts';
import { type Suspect, sameSoFar, suspectsOf } from './suspects.ts';
import { type CaseVerdict, caseVerdict } from './verdict.ts';
import { type Weighed, weigh } from './weigh.ts';

export type DiagnoseOptions = {
  readonly tools?: readonly Tool[];
  /** What is known of the vehicle's past, in the owner's words. */
  readonly history?: readonly string[];
  /** The user's own factors on prior weights, by suspect phrase. */
  readonly weights?: Weights;
};

export type Diagnosis = {
  readonly verdict: CaseVerdict;
  readonly suspects: readonly Suspect[];
  /** Indices of suspects that nothing said so far tells apart. */
  readonly groups: readonly (readonly number[])[];
  readonly next: readonly NextReading[];
  /** Findings that the best suspect does not explain. */
  readonly unexplained: readonly Finding[];
};

/** Mean chance per finding under which a single fault counts as a poor explanation, so that three at once are tried too. */
const poorFit = Math.log(0.15);

/**
 * From what was seen to suspects, the next reading and a verdict. Bayes over sets of faults: P(set | findings) is
 * proportional to P(set) · Π P(finding | set); one and two faults always, three when two leave something over.
 *
 * @param predictor  kept by the caller from one finding to the next, so that nothing is solved twice
 */
export function diagnose(
  circuit: Circuit,
  findings: readonly Finding[],
  options: DiagnoseOptions = {},
  predictor = new Predictor(circuit),
): Diagnosis {
  const said = findings.filter(tells);
  const singles = weigh(predictor, singleHypotheses(circuit, options.history, options.weights), said);
  const doubles = pairs(predictor, singles, said);
  const best = [...singles, ...doubles].reduce((top, w) => (w.score > top.score ? w : top));
  const more = leavesOver(best, said.length)
    ? triples(
        predictor,
        [...doubles].sort((a, b) => b.score - a.score),
        singles,
        said,
      )
    : [];
  const suspects = suspectsOf([...singles, ...doubles, ...more], said);
  const next = nextReadings(predictor, suspects, said, options.tools);
  const verdict = caseVerdict(suspects, said, next);
  return { verdict, suspects, groups: sameSoFar(suspects), next, unexplained: verdict.unexplained.map((k) => said[k]!) };
}

const leavesOver = (w: Weighed, findings: number): boolean =>
  findings > 0 && w.fits.reduce((sum, x) => sum + Math.min(0, x), 0) / findings < poorFit;
