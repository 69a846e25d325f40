import type { Finding } from './finding.ts';
import { type Hypothesis, together } from './hypotheses.ts';
import type { Predictor } from './predict.ts';
import { type Weighed, type Weighing, weigh } from './weigh.ts';

/** How many pairs are asked of the solver at once, and how often the lead may change hands until it is taken as it stands. */
const tried = 100;
const leading = 50;
const mostRounds = 3;
/** Pairs that are thought of at all, and of any two classes: they cost a line of numbers each. */
const mostPairs = 6000;
const mostOfTwo = 900;
/** A pair that its parts put so far behind the best single fault, ln, is taken as it stands: one in a hundred thousand. */
const hopeless = 11.5;
/** A second fault must make the findings at least this much likelier than the better of the two alone; else it explains nothing. */
const worthwhile = Math.log(3);

/**
 * Sets of two faults that explain the findings better than either alone.
 *
 * All pairs are looked at, in classes: singles that fit every finding equally well are one class. For a pair of
 * classes each finding is taken to fit as it does with the one fault that touches it, or with the better of both; so a
 * finding explained by either counts as explained. What leads by that is solved with both faults in, until the lead
 * has been; whoever trails keeps what was taken.
 * Cost: (classes²) · findings sums, a sum for each pair, and `tried` updates a scene for each round.
 */
export function pairs(
  predictor: Predictor,
  singles: readonly Weighed[],
  findings: readonly Finding[],
  weighing: Weighing = weigh,
): readonly Weighed[] {
  const healthy = singles.find((s) => s.hypothesis.faults.length === 0);
  if (!healthy || findings.length === 0) return [];
  const classes = classesOf(singles.filter((s) => s.hypothesis.faults.length > 0));
  const found: { a: FitClass; b: FitClass; score: number }[] = [];
  for (const [k, a] of classes.entries()) {
    for (const b of classes.slice(k)) {
      const fit = total(jointFits(a.fits, b.fits, healthy.fits));
      if (fit < Math.max(total(a.fits), total(b.fits)) + worthwhile) continue;
      found.push({ a, b, score: fit + a.best + b.best });
    }
  }
  found.sort((x, y) => y.score - x.score);
  const drafts: Weighed[] = [];
  for (const { a, b } of found) {
    if (drafts.length >= mostPairs) break;
    drafts.push(...pairsOf(a, b, jointFits(a.fits, b.fits, healthy.fits)));
  }
  const best = singles.reduce((most, s) => Math.max(most, s.score), Number.NEGATIVE_INFINITY);
  return solvedInLead(predictor, distinct(drafts), findings, best - hopeless, weighing);
}

/** Pairs of two classes, the likeliest beforehand first. */
function pairsOf(a: FitClass, b: FitClass, fits: readonly number[]): readonly Weighed[] {
  const most = Math.ceil(Math.sqrt(mostOfTwo));
  const wide = (other: FitClass) => Math.max(most, Math.ceil(mostOfTwo / Math.max(1, other.members.length)));
  const fit = total(fits);
  return a.members.slice(0, wide(b)).flatMap((x) =>
    b.members.slice(0, wide(a)).flatMap((y): readonly Weighed[] => {
      if (x === y || sameThing(x.hypothesis, y.hypothesis)) return [];
      const hypothesis = together(x.hypothesis, y.hypothesis);
      return [{ hypothesis, fits, score: fit + Math.log(hypothesis.prior), estimated: true }];
    }),
  );
}

/**
 * The pairs with those that lead weighed anew, both faults in.
 *
 * @param least score under which nobody is
 */
function solvedInLead(
  predictor: Predictor,
  drafts: readonly Weighed[],
  findings: readonly Finding[],
  least: number,
  weighing: Weighing,
): readonly Weighed[] {
  const known = new Map<Hypothesis, Weighed>(drafts.map((w) => [w.hypothesis, w]));
  const solved = new Set<Hypothesis>();
  for (let round = 0; round < mostRounds; round++) {
    const ranked = [...known.values()].filter((w) => w.score >= least).sort((x, y) => y.score - x.score);
    if (ranked.slice(0, leading).every((w) => solved.has(w.hypothesis))) break;
    const due = ranked.slice(0, tried).flatMap((w) => (solved.has(w.hypothesis) ? [] : [w.hypothesis]));
    for (const w of weighing(predictor, due, findings)) {
      known.set(w.hypothesis, w);
      solved.add(w.hypothesis);
    }
  }
  return [...known.values()];
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
      .filter((s) => s.hypothesis.faults.length === 1 && !sameThing(pair.hypothesis, s.hypothesis))
      .map((s) => ({
        set: [pair.hypothesis, s.hypothesis] as const,
        fit: total(jointFits(pair.fits, s.fits, healthy.fits)),
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

function jointFits(a: readonly number[], b: readonly number[], healthy: readonly number[]): readonly number[] {
  return a.map((own, k) => {
    const [touchesA, touchesB] = [Math.abs(own - healthy[k]!) > 1e-3, Math.abs(b[k]! - healthy[k]!) > 1e-3];
    return touchesA && touchesB ? Math.max(own, b[k]!) : touchesA ? own : b[k]!;
  });
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
    const key = phrasesOf(h);
    return !seen.has(key) && seen.add(key);
  });
}

function distinct(drafts: readonly Weighed[]): readonly Weighed[] {
  const kept = new Map<string, Weighed>();
  for (const w of drafts) {
    const key = phrasesOf(w.hypothesis);
    if (!kept.has(key)) kept.set(key, w);
  }
  return [...kept.values()];
}

const phrasesOf = (h: Hypothesis): string =>
  h.faults
    .map((f) => f.phrase)
    .sort()
    .join(' + ');
