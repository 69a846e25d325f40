import type { Fault } from '../faults/fault.ts';
import type { Finding } from './finding.ts';
import { bySuspect, type Hypothesis } from './hypotheses.ts';
import { type InWorld, likelihood } from './likelihood.ts';
import type { Prediction, Predictor } from './predict.ts';

/** A hypothesis held against every finding. */
export type Weighed = {
  readonly hypothesis: Hypothesis;
  /** ln P(finding | hypothesis), per finding. */
  readonly fits: readonly number[];
  /** ln (prior · Π P(finding | hypothesis)); not normalised. */
  readonly score: number;
  /** Put together from what each of its faults does alone; nobody solved it with all of them in. */
  readonly estimated?: true;
};

/**
 * Holds every hypothesis against every finding: score = ln prior + Σ ln P(finding | hypothesis).
 *
 * Grades of one fault stand for a range: where two neighbouring grades predict different values, anything between is
 * as possible, so each value is widened by half the way to its neighbour.
 * Cost: an update for each hypothesis and scene that was not asked before.
 */
export function weigh(predictor: Predictor, hypotheses: readonly Hypothesis[], findings: readonly Finding[]): readonly Weighed[] {
  const suspects = bySuspect(hypotheses, (h) => h);
  return hypotheses.map((hypothesis) => {
    const grades = suspects.get(hypothesis.suspect)!;
    const at = grades.indexOf(hypothesis);
    const beside = [grades[at - 1], grades[at + 1]].filter((g) => g !== undefined);
    const fits = findings.map((f) => {
      const own = predictor.predict(hypothesis.faults, f);
      const ranges = beside.length > 0 && 'value' in f.seen;
      return Math.log(
        likelihood(
          f.seen,
          ranges
            ? widened(
                own,
                beside.map((g) => predictor.predict(g.faults, f)),
              )
            : own,
          'during' in f.observable,
        ),
      );
    });
    return { hypothesis, fits, score: fits.reduce((sum, x) => sum + x, Math.log(hypothesis.prior)) };
  });
}

/** How hypotheses are held against findings: as `weigh` does, or by somebody who knows more of how the findings came about. */
export type Weighing = typeof weigh;

/** What falls further behind the best is not solved whole: it is shown as next to nothing either way. */
const behind = Math.log(1e-4);

/** The best of them weighed once more, every scene solved whole; the others stay as they were. */
export function confirmed(
  predictor: Predictor,
  weighed: readonly Weighed[],
  findings: readonly Finding[],
  most: number,
  weighing: Weighing = weigh,
): readonly Weighed[] {
  const best = [...weighed].sort((a, b) => b.score - a.score).slice(0, most);
  const least = (best[0]?.score ?? 0) + behind;
  const suspects = new Set(best.flatMap((w) => (w.score >= least ? [w.hypothesis.suspect] : [])));
  const list = weighed.filter((w) => suspects.has(w.hypothesis.suspect));
  const fresh = list.flatMap((w) => (w.score >= least && !isConfirmed(predictor, w.hypothesis.faults, findings) ? [w.hypothesis] : []));
  predictor.confirm(
    fresh.map((h) => h.faults),
    findings,
  );
  for (const h of fresh) confirmedFor.get(predictor)!.set(h.faults, new Set(findings.map((f) => f.phrase)));
  const again = new Map(
    weighing(
      predictor,
      list.map((w) => w.hypothesis),
      findings,
    ).map((w) => [w.hypothesis, w]),
  );
  return weighed.map((w) => again.get(w.hypothesis) ?? w);
}

const confirmedFor = new WeakMap<Predictor, WeakMap<readonly Fault[], ReadonlySet<string>>>();
function isConfirmed(predictor: Predictor, faults: readonly Fault[], findings: readonly Finding[]): boolean {
  const known = confirmedFor.get(predictor) ?? new WeakMap<readonly Fault[], ReadonlySet<string>>();
  confirmedFor.set(predictor, known);
  const done = known.get(faults);
  return done !== undefined && findings.every((f) => done.has(f.phrase));
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
