import type { Circuit } from '../circuit/circuit.ts';
import { type Tool, usualTools } from './candidates.ts';
import type { Finding } from './finding.ts';
import { type Group, groupsOf } from './groups.ts';
import { singleHypotheses, type Weights } from './hypotheses.ts';
import { nextReadings } from './nextReading.ts';
import { Predictor, tells } from './predict.ts';
import { proofReadings } from './proofReadings.ts';
import { pairs, triples } from './severalFaults.ts';
import { closer } from './severity.ts';
import { cannotStandTogether } from './standing.ts';
import type { NextReading } from './survey.ts';
import { type Suspect, suspectsOf } from './suspects.ts';
import { type CaseVerdict, caseVerdict } from './verdict.ts';
import { confirmed, type Weighed, weigh } from './weigh.ts';

export type DiagnoseOptions = {
  readonly tools?: readonly Tool[];
  /** What is known of the vehicle's past, in the owner's words. */
  readonly history?: readonly string[];
  /** The user's own factors on prior weights, by suspect phrase without its figure. */
  readonly weights?: Weights;
  /** Hears the suspects before the next readings are looked for, which takes longer. */
  readonly onBelief?: (belief: Belief) => void;
};

export type Diagnosis = {
  readonly verdict: CaseVerdict;
  /** Every suspect that was thought of, likeliest first; probabilities sum to one. */
  readonly suspects: readonly Suspect[];
  readonly groups: readonly Group[];
  readonly next: readonly NextReading[];
  /** The findings that count, in the order told; everything that speaks of a finding means an index of this list. */
  readonly findings: readonly Finding[];
};

/** What is believed, before the next reading is looked for: the quick part. */
export type Belief = Pick<Diagnosis, 'suspects' | 'findings'> & { readonly clashes: readonly (readonly number[])[] };

/** Mean chance per finding under which two faults count as a poor explanation, so that three at once are tried too. */
const poorFit = Math.log(0.15);
/** Suspects whose scenes are solved whole once they lead. */
const mostConfirmed = 20;

/**
 * From what was seen to suspects. Bayes over sets of faults: P(set | findings) is proportional to
 * P(set) · Π P(finding | set); one and two faults always, three when two leave something over.
 *
 * @param predictor  kept by the caller from one finding to the next, so that nothing is solved twice
 */
export function belief(
  circuit: Circuit,
  findings: readonly Finding[],
  options: DiagnoseOptions = {},
  predictor = new Predictor(circuit),
): Belief {
  const said = findings.filter(tells);
  const singles = closer(predictor, weigh(predictor, singleHypotheses(circuit, options.history, options.weights), said), said);
  const doubles = pairs(predictor, singles, said);
  const best = [...singles, ...doubles].reduce((top, w) => (w.score > top.score ? w : top));
  const ranked = () => [...doubles].sort((a, b) => b.score - a.score);
  const more = leavesOver(best, said.length) ? triples(predictor, ranked(), singles, said) : [];
  const all = confirmed(predictor, [...singles, ...doubles, ...more], said, mostConfirmed);
  const solved = all.filter((w) => !w.estimated);
  return { suspects: suspectsOf(all, said), findings: said, clashes: cannotStandTogether(solved, said, predictor.nominal_V) };
}

/** The whole: suspects, groups, the next readings, the verdict. */
export function diagnose(
  circuit: Circuit,
  findings: readonly Finding[],
  options: DiagnoseOptions = {},
  predictor = new Predictor(circuit),
): Diagnosis {
  const believed = belief(circuit, findings, options, predictor);
  options.onBelief?.(believed);
  const { suspects, findings: said, clashes } = believed;
  const tools = options.tools ?? usualTools;
  const next = nextReadings(predictor, suspects, said, tools);
  const groups = groupsOf(predictor, suspects, said, tools);
  const verdict = caseVerdict(suspects, said, clashes, next, groups);
  const isDone = verdict.state === 'proved' && verdict.unexplained.length === 0;
  const wanted = isDone ? [] : next.length === 0 && verdict.state === 'pinned' ? proofReadings(predictor, suspects, said, tools) : next;
  return { verdict, suspects, groups, next: wanted, findings: said };
}

const leavesOver = (w: Weighed, findings: number): boolean =>
  findings > 0 && w.fits.reduce((sum, x) => sum + Math.min(0, x), 0) / findings < poorFit;
