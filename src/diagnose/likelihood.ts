import type { Shunt, Verdict } from '../circuit/part.ts';
import type { Finding, Seen, SeenWord } from './finding.ts';
import type { Prediction } from './predict.ts';

/** Chance that a person or an instrument is plainly wrong once (estimate). One bad reading therefore never kills the truth. */
export const slip = 0.02;

/**
 * How often each word is said when the load really works, is weak, dead or chatters. Rows sum to 1; estimates: hardly
 * anybody says that something comes and goes who has not seen it both ways.
 */
const said: Readonly<Record<Verdict | 'chatters', Readonly<Record<'works' | 'weak' | 'dead' | 'comes and goes', number>>>> = {
  works: { works: 0.958, weak: 0.03, dead: 0.01, 'comes and goes': 0.002 },
  weak: { works: 0.258, weak: 0.65, dead: 0.09, 'comes and goes': 0.002 },
  dead: { works: 0.01, weak: 0.04, dead: 0.948, 'comes and goes': 0.002 },
  chatters: { works: 0.05, weak: 0.15, dead: 0.1, 'comes and goes': 0.7 },
};

/** Half-width of what a voltmeter reading may differ from the model, V: meter, battery state and clip together (estimate). */
export function voltsTolerance(volts: number, wide: boolean): number {
  const own = 0.05 + 0.025 * Math.abs(volts);
  const sag = wide ? 0.08 * Math.abs(volts) : 0;
  return Math.sqrt(own * own + sag * sag);
}

/** Under this a meter across a fuse is read in its millivolt range, V. */
const millivolts = 0.2;
/** Range in which a slip in millivolts falls, V (estimate). */
const fuseRange = 2e-3;

/** Half-width across a seated fuse, V: half a step of 0.1 mV, the fuse's own spread, and its warming, half more at its rating (estimate). */
export function fuseDropTolerance(volts: number, { ohm, rating_A, spread }: Shunt): number {
  const size = Math.min(millivolts, Math.abs(volts));
  return Math.hypot(5e-5, size * (spread + 0.5 * Math.min(1, size / (ohm * rating_A))));
}

/** Half-width of a voltmeter reading, V: in millivolts across a seated fuse, else as anywhere. */
export const meterWidth = (volts: number, wide: boolean, shunt: Shunt | undefined): number =>
  shunt && Math.abs(volts) < millivolts ? fuseDropTolerance(volts, shunt) : voltsTolerance(volts, wide);

/** A clamp's zero drifts by 10 mA and more (data sheets, secondary); a meter in line is off by its last digits (estimate), A. */
export const clampDrift_A = 0.01;
export const meterDrift_A = 0.001;

/**
 * ln of how much worse than in the best case a finding must fit to speak against a hypothesis: it would be a slip if that
 * were right (estimates). Of volts, which are read many times in one search, two and a half half-widths; else about two.
 */
export const asSlip = ({ observable }: Finding): number => (observable.of === 'volts' ? -3.1 : Math.log(0.12));

/** Same for amperes: a tenth, since parts draw beside their nameplates, and the zero of the instrument (estimate). */
export const amperesTolerance = (ampere: number, drift_A = clampDrift_A): number => drift_A + 0.1 * Math.abs(ampere);

/** Same for ohms: a third, and 0.2 Ω of leads (estimate). */
export const ohmsTolerance = (ohm: number): number => 0.2 + 0.3 * ohm;

/**
 * P(seen | predicted), for words a probability, for values a density per unit. Every finding can be a slip, so the
 * result is never zero.
 *
 * @param predicted  one per world of the hypothesis (an intermittent fault makes two), with its share of the time
 * @param atOnce     it was seen at one moment, so that nobody could notice it come and go
 */
export function likelihood(seen: Seen, predicted: readonly InWorld[], atOnce = false): number {
  const changeable = !atOnce && 'word' in seen && seen.word !== 'hot' && seen.word !== 'not tried' && differs(predicted);
  if (changeable && seen.word === 'comes and goes') return noticed;
  const sum = predicted.reduce((total, { share, is }) => total + share * ofOne(seen, is), 0);
  return changeable ? (1 - noticed) * sum : sum;
}

/** What a hypothesis predicts in one of its worlds, and for what share of the time that world is so. */
export type InWorld = { readonly share: number; readonly is: Prediction };

/** How often a person notices that something comes and goes, rather than how it was at that moment (estimate). */
export const noticed = 0.6;

/** ln of the chance that a finding is a plain slip: what even an unfit hypothesis leaves to it. */
export function slipScore(seen: Seen, range: number): number {
  if ('value' in seen) return Math.log((slip * 1.5) / (1.4 * range));
  return Math.log(0.06);
}

function differs(predicted: readonly InWorld[]): boolean {
  const words = predicted.map(({ is }) => (is.of === 'load' ? is.verdict : is.of === 'engine' ? `${is.cranks} ${is.alive}` : ''));
  return words.some((w) => w !== words[0]);
}

/** Share of free points on which a meter of 10 MΩ shows more than nothing: damp and neighbours feed it (estimate). */
const ghost = 0.2;

function ofOne(seen: Seen, is: Prediction): number {
  if ('word' in seen) return ofWord(seen.word, is);
  if ('engine' in seen) return is.of === 'engine' ? ofEngine(seen.engine, is) : 1;
  if ('outcome' in seen) return is.of === 'outcome' ? (is.chance[seen.outcome] ?? slip) : 1;
  if (is.of === 'ohms') return ofOhms(seen.value, is.ohm);
  if (is.of === 'volts' && is.shunt && Math.abs(seen.value) < millivolts)
    // Scaled so that a slip weighs as much as with any other reading of volts.
    return (graded(seen.value, is.volt ?? 0, fuseDropTolerance(is.volt ?? 0, is.shunt), is.spread, fuseRange) * fuseRange) / is.range;
  if (is.of === 'volts') {
    if (is.volt === null)
      return (
        (1 - ghost) * density(seen.value, 0, voltsTolerance(0, false), is.range) + ghost * density(seen.value, 0, is.range / 3, is.range)
      );
    return graded(seen.value, is.volt, voltsTolerance(is.volt, is.wide), is.spread, is.range);
  }
  if (is.of === 'amperes')
    // A slip falls anywhere up to what was read: hundreds of amperes are no likelier a slip where none are expected.
    return graded(
      seen.value,
      is.ampere,
      amperesTolerance(is.ampere, is.drift),
      is.spread,
      2 * Math.max(5, is.ampere, Math.abs(seen.value)),
    );
  return 1;
}

function ofWord(word: SeenWord, is: Prediction): number {
  if (word === 'not tried' || is.of !== 'load') return 1;
  if (word === 'hot') return is.watts > 2 ? 0.7 : is.watts > 0.5 ? 0.3 : 0.03;
  return said[is.verdict][word];
}

function ofEngine(word: string, is: Prediction & { of: 'engine' }): number {
  const yes = 0.95;
  const no = slip;
  switch (word) {
    case 'cranks':
      return is.cranks ? (is.slowly ? 0.4 : yes) : no;
    case 'cranks slowly':
      return is.slowly ? yes : is.cranks ? 0.1 : no;
    case 'fires':
      return is.cranks && is.alive ? yes : is.cranks ? no : is.alive ? 0.1 : no;
    case 'runs':
      return is.alive ? yes : no;
    case 'dies':
      return is.alive ? no : yes;
    default: // still: whether spark and fuel are there shows only on an engine that was turning
      return is.cranks ? no : is.turning && is.alive ? 0.1 : yes;
  }
}

/** Half of the time a fault is just as bad as its grade says, half of the time anything on the way to the next grade: an exact match costs no more than that. */
function graded(value: number, expected: number, tolerance: number, spread: number, range: number): number {
  const exact = density(value, expected, tolerance, range);
  return spread === 0 ? exact : (exact + density(value, expected, Math.hypot(tolerance, spread), range)) / 2;
}

/** Normal density with a flat floor for slips: value and `range` in the same unit. */
export function density(value: number, expected: number, sigma: number, range: number): number {
  const z = (value - expected) / sigma;
  return ((1 - slip) * Math.exp(-0.5 * z * z)) / (sigma * Math.sqrt(2 * Math.PI)) + slip / (1.4 * range);
}

function ofOhms(value: number, ohm: number): number {
  const open = 1e6; // what a workshop meter shows as open
  if (value >= open) return ohm >= open ? 1 - slip : ohm > 1e4 ? 0.2 : slip;
  if (ohm >= open) return slip / 50;
  return density(Math.log(value + 0.2), Math.log(ohm + 0.2), 0.35, 20);
}
