import type { FaultMode } from '../circuit/part.ts';
import { type Fault, faultOf } from '../faults/fault.ts';
import type { Finding } from './finding.ts';
import { bySuspect, type Hypothesis } from './hypotheses.ts';
import type { Predictor } from './predict.ts';
import { type Weighed, weigh } from './weigh.ts';

/** Suspects whose severity is looked at more closely, those that explain most for their prior. */
const mostSuspects = 24;
/** A suspect counts when it makes what it touches likelier than a sound vehicle does by more than this, in its best grades; natural logarithm (estimate). */
const leastGain = 1.5;
/** Rounds of bisection; each adds the middle of up to three stretches. */
const rounds = 3;
const stretchesEach = 3;
/** Stretches whose ends are nearer than this are not parted again: a fifth more or less of an ohm is not told apart. */
const closest = Math.log(1.2);
/** Ends of the scale are tried once beyond the outermost grades, by this factor. */
const beyond = 4;
/** Fits that differ by more are different answers. */
const apart = 0.5;

/**
 * How bad a suspect is, more closely than by the grades that every hypothesis begins with: a contact of 1.6 Ω makes a
 * lamp weak that works at 0.5 Ω and is dead at 3 Ω. Where the answers of two neighbouring grades differ, the one between
 * them is asked too.
 *
 * The prior of a suspect stays as it is: its grades share it by the stretch of the scale that each stands for, counted in
 * decades, so that looking closely makes nobody likelier.
 * Cost: up to eleven updates a scene besides the grades themselves, for each of some two dozen suspects.
 *
 * @returns the same suspects; those looked at have more grades
 */
export function closer(predictor: Predictor, singles: readonly Weighed[], findings: readonly Finding[]): readonly Weighed[] {
  const healthy = singles.find((w) => w.hypothesis.faults.length === 0);
  if (!healthy || findings.length === 0) return singles;
  const suspects = bySuspect(singles, (w) => w.hypothesis);
  const chosen = [...suspects.values()]
    .filter(hasScale)
    .map((grades) => ({ grades, ...promise(grades, healthy) }))
    .filter((s) => s.varies && s.gain > leastGain)
    .sort((a, b) => b.score - a.score)
    .slice(0, mostSuspects);
  const refined = new Map(chosen.map(({ grades }) => [grades[0]!.hypothesis.suspect, lookedAt(predictor, grades, findings)]));
  if (refined.size === 0) return singles;
  return [...suspects].flatMap(([suspect, grades]) => refined.get(suspect) ?? grades);
}

/** A quantity of at least two grades of one sign; shares of the time are no severity. */
function hasScale(grades: readonly Weighed[]): boolean {
  const [first] = grades[0]!.hypothesis.faults;
  return grades.length > 1 && first !== undefined && !first.mode.sometimes && grades.every((w) => amountOf(w) > 0);
}

const amountOf = (w: Weighed): number => w.hypothesis.faults[0]!.detail;

/** What a suspect could explain at most if each finding met its best grade. */
function promise(
  grades: readonly Weighed[],
  healthy: Weighed,
): { readonly varies: boolean; readonly gain: number; readonly score: number } {
  let [gain, varies] = [0, false];
  let score = Math.log(grades.reduce((sum, w) => sum + w.hypothesis.prior, 0));
  for (const [k, sound] of healthy.fits.entries()) {
    const fits = grades.map((w) => w.fits[k]!);
    const [low, high] = [Math.min(...fits), Math.max(...fits)];
    varies ||= high - low > apart;
    gain += Math.max(0, high - sound, sound - low > apart && high - low > apart ? apart : 0);
    score += high;
  }
  return { varies, gain, score };
}

function lookedAt(predictor: Predictor, grades: readonly Weighed[], findings: readonly Finding[]): readonly Weighed[] {
  const { mode, part } = grades[0]!.hypothesis.faults[0]!;
  const prior = grades.reduce((sum, w) => sum + w.hypothesis.prior, 0);
  const { min, max } = mode.detail!;
  const amounts = grades.map(amountOf).sort((a, b) => a - b);
  const ends = [amounts[0]! / beyond, amounts.at(-1)! * beyond].filter((x) => x >= min && x <= max);
  let now = weighedAt([...amounts, ...ends]);
  for (let round = 0; round < rounds; round++) {
    const more = stretches(now).slice(0, stretchesEach);
    if (more.length === 0) break;
    now = weighedAt([...now.map(amountOf), ...more]);
  }
  return now;

  function weighedAt(list: readonly number[]): readonly Weighed[] {
    const sorted = [...new Set(list)].sort((a, b) => a - b);
    const wide = sorted.map((x, k) => Math.log((sorted[k + 1] ?? x * 2) / (sorted[k - 1] ?? x / 2)));
    const whole = wide.reduce((sum, w) => sum + w, 0);
    const hypotheses = sorted.map((x, k): Hypothesis => {
      return { faults: faultAt(part, mode, x), prior: (prior * wide[k]!) / whole, suspect: grades[0]!.hypothesis.suspect };
    });
    return weigh(predictor, hypotheses, findings);
  }
}

/** Middles of the stretches between neighbouring grades that answer otherwise or stand beside the best, the most promising first. */
function stretches(grades: readonly Weighed[]): readonly number[] {
  const best = grades.reduce((top, w) => (fitOf(w) > fitOf(top) ? w : top));
  return grades
    .slice(1)
    .flatMap((b, k) => {
      const a = grades[k]!;
      const differ = Math.max(...a.fits.map((x, f) => Math.abs(x - b.fits[f]!)));
      if (Math.log(amountOf(b) / amountOf(a)) < closest || (differ <= apart && a !== best && b !== best)) return [];
      const could = a.fits.reduce((sum, x, f) => sum + Math.max(x, b.fits[f]!), 0);
      return [{ middle: Number(Math.sqrt(amountOf(a) * amountOf(b)).toPrecision(2)), could }];
    })
    .sort((a, b) => b.could - a.could)
    .map((s) => s.middle);
}

const fitOf = (w: Weighed): number => w.fits.reduce((sum, x) => sum + x, 0);

/** The same list each time, so that what was predicted of it is found again. */
function faultAt(part: string, mode: FaultMode, amount: number): readonly Fault[] {
  const known = made.get(mode) ?? new Map<number, readonly Fault[]>();
  made.set(mode, known);
  const faults = known.get(amount) ?? [faultOf(part, mode, amount)];
  known.set(amount, faults);
  return faults;
}
const made = new WeakMap<FaultMode, Map<number, readonly Fault[]>>();
