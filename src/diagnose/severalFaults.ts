import type { Finding } from './finding.ts';
import { type Hypothesis, together } from './hypotheses.ts';
import type { Predictor } from './predict.ts';
import { type Weighed, weigh } from './weigh.ts';

/** How many pairs are asked of the solver. */
const tried = 160;
/** A second fault must make the findings at least this much likelier than the better of the two alone; else it explains nothing. */
const worthwhile = Math.log(3);

/**
 * Sets of two faults that explain the findings better than either alone, asked of the solver with both in.
 *
 * All pairs are looked at, in classes: singles that fit every finding equally well are one class. For a pair of
 * classes each finding is taken to fit as it does with the one fault that touches it, or with the better of both; so a
 * finding explained by either counts as explained. The best are then solved with both faults in.
 * Cost: (classes²) · findings sums, and `tried` updates a scene.
 */
export function pairs(predictor: Predictor, singles: readonly Weighed[], findings: readonly Finding[]): readonly Weighed[] {
  const healthy = singles.find((s) => s.hypothesis.faults.length === 0);
  if (!healthy || findings.length === 0) return [];
  const classes = classesOf(singles.filter((s) => s.hypothesis.faults.length > 0));
  const found: { a: FitClass; b: FitClass; score: number }[] = [];
  for (const [k, a] of classes.entries()) {
    for (const b of classes.slice(k)) {
      const fit = jointFit(a.fits, b.fits, healthy.fits);
      if (fit < Math.max(total(a.fits), total(b.fits)) + worthwhile) continue;
      found.push({ a, b, score: fit + a.best + b.best });
    }
  }
  found.sort((x, y) => y.score - x.score);
  const chosen: Hypothesis[] = [];
  for (const { a, b } of found) {
    if (chosen.length >= tried) break;
    const most = Math.max(4, Math.round(tried / 12));
    const both = a.members.slice(0, most).flatMap((x) => b.members.slice(0, most).map((y) => [x.hypothesis, y.hypothesis] as const));
    const apart = both.filter(([x, y]) => x !== y && !sameThing(x, y));
    apart.sort(([x, y], [v, w]) => v.prior * w.prior - x.prior * y.prior);
    chosen.push(...apart.slice(0, most).map(([x, y]) => together(x, y)));
  }
  return weigh(predictor, unique(chosen), findings);
}

/** Sets of three, grown from the best pairs by every single fault that explains what a pair leaves over. */
export function triples(
  predictor: Predictor,
  best: readonly Weighed[],
  singles: readonly Weighed[],
  findings: readonly Finding[],
): readonly Weighed[] {
  const healthy = singles.find((s) => s.hypothesis.faults.length === 0);
  if (!healthy) return [];
  const grown = best.slice(0, 6).flatMap((pair) =>
    singles
      .filter((s) => s.hypothesis.faults.length === 1 && !pair.hypothesis.faults.some((f) => f.mode === s.hypothesis.faults[0]!.mode))
      .map((s) => ({
        set: [pair.hypothesis, s.hypothesis] as const,
        fit: jointFit(pair.fits, s.fits, healthy.fits),
        alone: total(pair.fits),
      }))
      .filter(({ fit, alone }) => fit > alone + worthwhile),
  );
  grown.sort((x, y) => y.fit - x.fit);
  return weigh(predictor, unique(grown.slice(0, tried / 2).map(({ set: [pair, third] }) => together(pair, third))), findings);
}

type FitClass = { readonly fits: readonly number[]; readonly members: Weighed[]; best: number };

function classesOf(singles: readonly Weighed[]): readonly FitClass[] {
  const classes = new Map<string, FitClass>();
  for (const single of singles) {
    const key = single.fits.map((x) => x.toFixed(2)).join(' ');
    const known = classes.get(key);
    const prior = Math.log(single.hypothesis.prior);
    if (known) {
      known.members.push(single);
      known.best = Math.max(known.best, prior);
    } else classes.set(key, { fits: single.fits, members: [single], best: prior });
  }
  for (const c of classes.values()) c.members.sort((x, y) => y.hypothesis.prior - x.hypothesis.prior);
  return [...classes.values()];
}

function jointFit(a: readonly number[], b: readonly number[], healthy: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) {
    const [touchesA, touchesB] = [Math.abs(a[k]! - healthy[k]!) > 1e-3, Math.abs(b[k]! - healthy[k]!) > 1e-3];
    sum += touchesA && touchesB ? Math.max(a[k]!, b[k]!) : touchesA ? a[k]! : b[k]!;
  }
  return sum;
}

const total = (fits: readonly number[]): number => fits.reduce((sum, x) => sum + x, 0);

/** Two grades of one fault, or two modes that cannot both be, are no pair. */
function sameThing(x: Hypothesis, y: Hypothesis): boolean {
  return x.faults.some((f) =>
    y.faults.some((g) => f.part === g.part && (f.mode.excludes ?? f.mode.subject) === (g.mode.excludes ?? g.mode.subject)),
  );
}

function unique(hypotheses: readonly Hypothesis[]): readonly Hypothesis[] {
  const seen = new Set<string>();
  return hypotheses.filter((h) => {
    const key = h.faults
      .map((f) => f.phrase)
      .sort()
      .join(' + ');
    return !seen.has(key) && seen.add(key);
  });
}
