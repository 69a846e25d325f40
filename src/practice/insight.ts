import { probesOf, stagesOf, type Tool } from '../diagnose/candidates.ts';
import { minutesPerMoney, step_min } from '../diagnose/costs.ts';
import type { Belief } from '../diagnose/diagnose.ts';
import type { Finding } from '../diagnose/finding.ts';
import { type Hypothesis, singleHypotheses } from '../diagnose/hypotheses.ts';
import { voltsTolerance } from '../diagnose/likelihood.ts';
import { worthwhile } from '../diagnose/nextReading.ts';
import { believed } from '../diagnose/outcomes.ts';
import { type Predictor, tells } from '../diagnose/predict.ts';
import { proofReadings } from '../diagnose/proofReadings.ts';
import { pairs } from '../diagnose/severalFaults.ts';
import { explains } from '../diagnose/standing.ts';
import type { NextReading } from '../diagnose/survey.ts';
import { type Suspect, suspectsOf } from '../diagnose/suspects.ts';
import { placeName } from '../diagnose/verdict.ts';
import { confirmed, type Weighed, type Weighing, weigh } from '../diagnose/weigh.ts';
import type { Fault } from '../faults/fault.ts';
import { loadsAt } from '../solve/loads.ts';

/** A suspect counts as left while it is not twenty times less likely than the likeliest. */
const rivalOdds = 20;
/** Belief in the place, or in places that no reading tells from it, at which the cause counts as proved. */
export const provedFrom = 0.95;
/** Suspects less likely than this are not compared with the truth, to save time. */
const worthComparing = 0.004;

/** What the findings so far imply, by the engine of the diagnosis. */
export type Insight = Pick<Belief, 'suspects' | 'findings'> & {
  /** How many suspects are left, at least 1. */
  readonly left: number;
};

/** Suspects whose scenes are solved whole once they lead. */
const mostConfirmed = 6;

/**
 * Who is suspected after these findings: the engine's own hypotheses, held against every finding. Sets of two are thought
 * of once no single fault explains everything, since an exercise asks after each step and most hide one.
 *
 * The same question is asked again by the hint, the search for the next reading and the debrief, so the last answers are
 * remembered.
 */
export function insightOf(predictor: Predictor, findings: readonly Finding[]): Insight {
  const said = findings.filter(tells);
  const known = insights.get(predictor) ?? new Map<string, Insight>();
  insights.set(predictor, known);
  const key = said.map((f) => f.phrase).join('\n');
  const before = known.get(key);
  if (before) return before;
  const made = workedOut(predictor, said);
  if (known.size >= mostKept) known.delete(known.keys().next().value!);
  known.set(key, made);
  return made;
}

const insights = new WeakMap<Predictor, Map<string, Insight>>();
/** Insights kept of one vehicle: a search of an apprentice and the best one, step by step. */
const mostKept = 80;

function workedOut(predictor: Predictor, said: readonly Finding[]): Insight {
  const all = singleHypotheses(predictor.circuit);
  const standing = stillStanding(predictor, all, said);
  const isOne = explainedByOne(predictor, standing, said);
  const singles = isOne ? standing : withoutSlips(predictor, all, said);
  const doubles = isOne ? [] : pairs(predictor, singles, said, withoutSlips);
  const suspects = suspectsOf(confirmed(predictor, [...singles, ...doubles], said, mostConfirmed, withoutSlips), said);
  return { suspects, findings: said, left: suspectsLeft(suspects) };
}

/** What fits a finding worse than this would make it a slip, ln: a word that was looked at closely, and a value. */
const slippingWord = -1;
const slippingValue = -2.5;
/** A slip is held against a suspect so many times over. */
const held = 6;

/** Nobody slips at this bench, and no instrument is off: whoever needs a slip falls behind two faults that need none. */
const withoutSlips: Weighing = (predictor, hypotheses, findings) => {
  const slipping = findings.map((f) => ('word' in f.seen ? slippingWord : slippingValue));
  return weigh(predictor, hypotheses, findings).map((w) => {
    const fits = w.fits.map((x, k) => (x < slipping[k]! ? slipping[k]! + held * (x - slipping[k]!) : x));
    const more = fits.reduce((sum, x, k) => sum + x - w.fits[k]!, 0);
    return { ...w, fits, score: w.score + more };
  });
};

/** A single fault this much less likely than the best, in ln, is asked no further finding: one in a thousand. */
const hopeless = 7;
/** Findings after which the hopeless are let go. */
const stride = 2;

/**
 * Single faults that the findings leave standing, each held against all of them. Nothing slips at this bench, so what
 * two findings contradict never comes back while another fault fits them; and to solve every fault of the vehicle in the
 * scene of every reading is what takes the time. All grades of a fault stand or go together.
 */
function stillStanding(predictor: Predictor, all: readonly Hypothesis[], said: readonly Finding[]): readonly Weighed[] {
  let left = all;
  for (let k = stride; k < said.length; k += stride) {
    const weighed = withoutSlips(predictor, left, said.slice(0, k));
    const best = weighed.reduce((most, w) => Math.max(most, w.score), Number.NEGATIVE_INFINITY);
    const standing = new Set(weighed.filter((w) => w.score > best - hopeless).map((w) => w.hypothesis.suspect));
    left = left.filter((h) => standing.has(h.suspect));
  }
  return withoutSlips(predictor, left, said);
}

/** Whether any one fault would do all of this. */
export function isOneEnough(predictor: Predictor, findings: readonly Finding[]): boolean {
  const said = findings.filter(tells);
  return explainedByOne(predictor, withoutSlips(predictor, singleHypotheses(predictor.circuit), said), said);
}

/** A part that comes and goes would explain nearly anything, so it counts only when somebody saw something change. */
function explainedByOne(predictor: Predictor, singles: readonly Weighed[], said: readonly Finding[]): boolean {
  const changing =
    isSeenToChange(said) ||
    said.some((f) => ('word' in f.seen && f.seen.word === 'comes and goes') || ('outcome' in f.seen && f.seen.outcome === 'changes'));
  const steady = singles.filter((w) => changing || !w.hypothesis.faults.some((f) => f.mode.sometimes));
  const isExplained = explains(steady, said, predictor.nominal_V);
  return steady.some((w) => said.every((_f, k) => isExplained(w, k)));
}

/** The same thing in the same scene was once so and once otherwise. */
function isSeenToChange(said: readonly Finding[]): boolean {
  const words = new Map<string, string>();
  return said.some(({ scene, observable, seen }) => {
    const word = 'word' in seen ? seen.word : 'engine' in seen ? seen.engine : undefined;
    if (word === undefined) return false;
    const place = JSON.stringify([scene, observable]);
    const before = words.get(place);
    words.set(place, word);
    return before !== undefined && before !== word;
  });
}

export function suspectsLeft(suspects: readonly Suspect[]): number {
  const top = suspects[0]?.probability ?? 1;
  return Math.max(1, suspects.filter((s) => s.probability * rivalOdds >= top).length);
}

/** Grades of suspects that a next reading is chosen for: fewer than a diagnosis weighs, since an exercise asks after every step. */
const mostHeld = 14;

/** The readings worth most per minute for the likeliest suspects, best first; where none parts them, those that would prove the first. */
export function bestNext(predictor: Predictor, { suspects, findings }: Insight, tools: readonly Tool[], most = 3): readonly NextReading[] {
  const held = believed(suspects, mostHeld);
  const proofs = () => proofReadings(predictor, suspects, findings, tools, most);
  if (held.length < 2) return proofs();
  const many = 1 + Math.max(...held.map((h) => h.suspect));
  // Bridging past every contact for every load takes longest to think through and seldom wins; an apprentice may still do it.
  const measured = tools.filter((t) => t !== 'jumper');
  const cost = ({ minutes, candidate }: NextReading) => minutes + candidate.price * minutesPerMoney + step_min;
  // Nor does the bench hold a fault that comes and goes until the leads are on.
  const telling = worthwhile(predictor, held, many, findings, measured)
    .filter((r) => !('during' in r.candidate.observable))
    .sort((a, b) => b.bits / cost(b) - a.bits / cost(a) || a.minutes - b.minutes)
    .slice(0, most);
  return telling.length > 0 ? telling : proofs();
}

const subjects = (faults: readonly Fault[]): string =>
  faults
    .map((f) => f.mode.subject)
    .sort()
    .join(' + ');

/** The same places, however bad each is and in whichever way. */
export const samePlace = (a: readonly Fault[], b: readonly Fault[]): boolean => subjects(a) === subjects(b);

const compared = new WeakMap<Predictor, Map<string, boolean>>();

/** True when no look at a load and no meter reading, in any scene of the position table, tells two sets of faults apart. */
export function areTwins(predictor: Predictor, a: readonly Fault[], b: readonly Fault[]): boolean {
  const known = compared.get(predictor) ?? new Map<string, boolean>();
  compared.set(predictor, known);
  const key = `${a.map((f) => f.phrase).join('+')} = ${b.map((f) => f.phrase).join('+')}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const { points } = probesOf(predictor);
  const same = stagesOf(predictor).every(({ scene }) => {
    const [one, other] = [a, b].map((faults) => predictor.vehicles.of(faults).map((v) => predictor.vehicles.answer(v, scene)));
    if (one!.length !== other!.length) return false;
    return one!.every((at, k) => {
      const there = other![k]!;
      if (at.nodeVolts === there.nodeVolts && at.network === there.network) return true;
      const words = (x: typeof at) =>
        loadsAt(x)
          .map((l) => l.verdict)
          .join();
      if (words(at) !== words(there)) return false;
      return points.every(({ node }) => {
        const [v, w] = [at, there].map((x) => (x.floats[node] === 1 ? 0 : x.nodeVolts[node]!)) as [number, number];
        return Math.abs(v - w) <= voltsTolerance(v, false) + voltsTolerance(w, false);
      });
    });
  });
  known.set(key, same);
  return same;
}

/** Belief in the hidden places together with those that no reading tells from them. */
export function beliefInTruth(predictor: Predictor, suspects: readonly Suspect[], hidden: readonly Fault[]): number {
  const place = subjects(hidden);
  let sum = 0;
  for (const s of suspects) {
    if (placeName(s) === place) sum += s.probability;
    else if (s.probability >= worthComparing && s.faults.length === hidden.length && areTwins(predictor, s.faults, hidden))
      sum += s.probability;
  }
  return sum;
}
