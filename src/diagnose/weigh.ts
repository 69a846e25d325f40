import type { Finding } from './finding.ts';
import type { Hypothesis } from './hypotheses.ts';
import { type InWorld, likelihood } from './likelihood.ts';
import type { Prediction, Predictor } from './predict.ts';

/** A hypothesis held against every finding. */
export type Weighed = {
  readonly hypothesis: Hypothesis;
  /** ln P(finding | hypothesis), per finding. */
  readonly fits: readonly number[];
  /** ln (prior · Π P(finding | hypothesis)); not normalised. */
  readonly score: number;
};

/**
 * Holds every hypothesis against every finding: score = ln prior + Σ ln P(finding | hypothesis).
 *
 * Grades of one fault stand for a range: where two neighbouring grades predict different values, anything between is
 * as possible, so each value is widened by half the way to its neighbour.
 * Cost: one solve for each hypothesis and distinct scene, less those that cannot make a difference.
 */
export function weigh(predictor: Predictor, hypotheses: readonly Hypothesis[], findings: readonly Finding[]): readonly Weighed[] {
  const predicted = hypotheses.map((h) => findings.map((f) => predictor.predict(h.faults, f.scene, f.observable)));
  const bySuspect = new Map<string, number[]>();
  for (const [k, h] of hypotheses.entries()) bySuspect.set(h.suspect, [...(bySuspect.get(h.suspect) ?? []), k]);
  return hypotheses.map((hypothesis, k) => {
    const grades = bySuspect.get(hypothesis.suspect)!;
    const at = grades.indexOf(k);
    const beside = [grades[at - 1], grades[at + 1]].filter((g) => g !== undefined);
    const fits = findings.map((f, i) => {
      const own = predicted[k]![i]!;
      const near = beside.map((g) => predicted[g]![i]!);
      return Math.log(likelihood(f.seen, near.length === 0 ? own : widened(own, near)));
    });
    return { hypothesis, fits, score: fits.reduce((sum, x) => sum + x, Math.log(hypothesis.prior)) };
  });
}

function widened(own: readonly InWorld[], near: readonly (readonly InWorld[])[]): readonly InWorld[] {
  return own.map((w, k) => {
    const value = predictedValue(w.is);
    if (value === undefined || !('spread' in w.is)) return w;
    const ways = near.map((n) => predictedValue(n[k]?.is)).filter((x) => x !== undefined);
    const spread = Math.max(0, ...ways.map((x) => Math.abs(x - value) / 2));
    return { ...w, is: { ...w.is, spread } };
  });
}

function predictedValue(is: Prediction | undefined): number | undefined {
  if (is?.of === 'volts') return is.volt ?? 0;
  return is?.of === 'amperes' ? is.ampere : undefined;
}

/** Probabilities of weighed hypotheses: they sum to one. */
export function posterior(weighed: readonly Weighed[]): readonly number[] {
  const best = Math.max(...weighed.map((w) => w.score));
  const mass = weighed.map((w) => Math.exp(w.score - best));
  const total = mass.reduce((sum, m) => sum + m, 0);
  return mass.map((m) => m / total);
}
