import { type Branching, informationBits } from './bayes.ts';
import type { Candidate } from './candidates.ts';
import type { Seen } from './finding.ts';
import { amperesTolerance, meterWidth, noticed, ohmsTolerance } from './likelihood.ts';
import type { Prediction, Predictor } from './predict.ts';
import type { Suspect } from './suspects.ts';

/** One way in which a reading can come out, and which suspects say it would. */
export type Outcome = Branching & {
  /** `works`, `about 12.4 V`, `cured` … */
  readonly seen: string;
  /** The same as a finding would hold it; for values the middle of the range. */
  readonly as: Seen;
};

/** A suspect's grade with its share of the belief. `suspect` is its index. */
export type Held = { readonly suspect: number; readonly mass: number; readonly faults: Suspect['faults'] };

/** Suspects' grades that carry nearly all of the belief, at most `most` of them; their masses sum to one. */
export function believed(suspects: readonly Suspect[], most = 48, enough = 0.99): readonly Held[] {
  const all = suspects.flatMap((s, suspect) => s.grades.map((g) => ({ suspect, mass: g.share, faults: g.weighed.hypothesis.faults })));
  all.sort((a, b) => b.mass - a.mass);
  const kept: Held[] = [];
  let mass = 0;
  for (const w of all) {
    if (kept.length >= most || mass > enough) break;
    kept.push(w);
    mass += w.mass;
  }
  return kept.map((w) => ({ ...w, mass: w.mass / mass }));
}

/** One believed state of the vehicle: a grade of a suspect in one of its worlds, with its share of the belief. */
export type Case = { readonly suspect: number; readonly weight: number };

/** What one case says of a reading: a word, or a value with the width that an instrument leaves it. `chance`: how likely it says so. */
export type Saying = { readonly of: Case; readonly label: string; readonly at: number; readonly width: number; readonly chance: number };

/** Words or values cut into outcomes; bits first, so that a reading not worth taking costs no more. */
export type Cut = { readonly order: readonly Saying[]; readonly bin: Int32Array; readonly bins: number; readonly bits: number };

/**
 * How a reading could come out. Words are taken as they are; values that an instrument would not tell apart are one
 * outcome: sorted, they are cut where the gap is wider than both tolerances.
 *
 * @param mass belief per suspect
 */
export function cutOf(sayings: readonly Saying[], mass: Float64Array): Cut {
  const order = [...sayings].sort((a, b) => (a.label < b.label ? -1 : a.label > b.label ? 1 : a.at - b.at));
  const bin = new Int32Array(order.length);
  let bins = 0;
  for (let k = 1; k < order.length; k++) {
    const [a, b] = [order[k - 1]!, order[k]!];
    if (a.label !== b.label || b.at - a.at > a.width + b.width) bins++;
    bin[k] = bins;
  }
  return { order, bin, bins: bins + 1, bits: bins === 0 ? 0 : bitsOf(order, bin, bins + 1, mass) };
}

function bitsOf(order: readonly Saying[], bin: Int32Array, bins: number, mass: Float64Array): number {
  const many = mass.length;
  const joint = new Float64Array(bins * many);
  const probability = new Float64Array(bins);
  for (let k = 0; k < order.length; k++) {
    const { of, chance } = order[k]!;
    const share = of.weight * chance;
    joint[bin[k]! * many + of.suspect]! += share;
    probability[bin[k]!]! += share;
  }
  const outcomes = Array.from(probability, (p, o): Branching => ({ probability: p, shares: joint.subarray(o * many, (o + 1) * many) }));
  return informationBits(outcomes, mass);
}

/** The outcomes of a cut, in words. */
export function outcomesOf({ order, bin, bins }: Cut, unit: 'V' | 'A' | 'Ω' | '', suspects: number): readonly Outcome[] {
  const parted = Array.from({ length: bins }, (_, o) => order.filter((_s, k) => bin[k] === o));
  // Millivolts are told where they tell outcomes apart; beside volts they are none.
  const isFine = parted.filter((members) => Math.abs(members.at(-1)!.at) < small_V).length > 1;
  return parted.map((members) => {
    const shares = new Float64Array(suspects);
    let probability = 0;
    for (const { of, chance } of members) {
      shares[of.suspect]! += of.weight * chance;
      probability += of.weight * chance;
    }
    const { label } = members[0]!;
    const [from, to] = [members[0]!.at, members.at(-1)!.at];
    return label === ''
      ? { seen: valueWords(from, to, unit, isFine), as: { value: (from + to) / 2 }, probability, shares }
      : { seen: label, as: asSeen(label), probability, shares };
  });
}

/** What every case says of something that is asked of the predictor. */
export function sayingsOf(predictor: Predictor, candidate: Candidate, held: readonly Held[]): readonly Saying[] {
  return held.flatMap((h) => {
    const sayings = predictor
      .expected(h.faults, candidate)
      .flatMap(({ share, is }) => piecesOf(is).map((p): Saying => ({ ...p, of: { suspect: h.suspect, weight: h.mass * share } })));
    return candidate.observable.of === 'load' && !candidate.observable.during ? asWatched(sayings) : sayings;
  });
}

/**
 * What a person says who watches one load of one state of the vehicle: where its worlds differ, mostly that it comes and
 * goes, else how it was at that moment.
 *
 * @param sayings one for each world
 */
export function asWatched(sayings: readonly Saying[]): readonly Saying[] {
  const [first] = sayings;
  if (first === undefined || sayings.every((s) => s.label === first.label)) return sayings;
  const weight = sayings.reduce((sum, s) => sum + s.of.weight, 0);
  const changing: Saying = { of: { suspect: first.of.suspect, weight }, label: 'comes and goes', at: 0, width: 0, chance: noticed };
  return [changing, ...sayings.map((s) => ({ ...s, chance: s.chance * (1 - noticed) }))];
}

const engineLabels = ['fires', 'cranks', 'cranks slowly', 'runs', 'dies', 'still'] as const;

export function asSeen(label: string): Seen {
  const engine = engineLabels.find((w) => label === `engine ${w}`);
  if (engine) return { engine };
  switch (label) {
    case 'cured':
    case 'changes':
    case 'no change':
      return { outcome: label };
    case 'open':
      return { value: Number.POSITIVE_INFINITY };
    default:
      return { word: label === 'works' || label === 'weak' || label === 'comes and goes' ? label : 'dead' };
  }
}

function piecesOf(is: Prediction): readonly Omit<Saying, 'of'>[] {
  const word = (label: string, chance = 1) => ({ label, at: 0, width: 0, chance });
  switch (is.of) {
    case 'load':
      return [word(is.verdict === 'chatters' ? 'comes and goes' : is.verdict)];
    case 'engine': {
      // Whether it would stay alive costs more scenes: asked only where that shows.
      if (is.cranks) return [word(`engine ${is.alive ? 'fires' : is.slowly ? 'cranks slowly' : 'cranks'}`)];
      return [word(`engine ${!is.turning ? 'still' : is.alive ? 'runs' : 'dies'}`)];
    }
    case 'volts':
      return [{ label: '', at: is.volt ?? 0, width: meterWidth(is.volt ?? 0, is.wide, is.shunt), chance: 1 }];
    case 'amperes':
      return [{ label: '', at: is.ampere, width: amperesTolerance(is.ampere, is.drift), chance: 1 }];
    case 'ohms':
      return is.ohm > 1e6 ? [word('open')] : [{ label: '', at: is.ohm, width: ohmsTolerance(is.ohm), chance: 1 }];
    case 'outcome': {
      const { cured = 0, changes = 0 } = is.chance;
      const [good, other] = [cured, Math.max(0, changes - cured)];
      return [word('cured', good), word('changes', other), word('no change', Math.max(0, 1 - good - other))].filter((p) => p.chance > 0);
    }
  }
}

/** Under this volts are small: no lamp shows them, and a meter reads them in thousandths. */
const small_V = 0.0995;

/** A range of values in words. @param isFine small volts in thousandths: the drop across a fuse is told from none by millivolts */
function valueWords(from: number, to: number, unit: string, isFine: boolean): string {
  const isSmall = (x: number) => (unit === 'A' && Math.abs(x) < 0.995) || (unit === 'V' && isFine && Math.abs(x) < small_V);
  const text = (x: number) => {
    const [value, digits] = isSmall(x) ? [x * 1000, unit === 'V' && Math.abs(x) < 0.00995 ? 1 : 0] : [x, 1];
    const figure = value.toFixed(digits);
    return Number(figure) === 0 ? `0 ${unit}` : `${figure} ${isSmall(x) ? 'm' : ''}${unit}`;
  };
  const most = Math.max(Math.abs(from), Math.abs(to));
  const isNear = Math.abs(to - from) < (isSmall(from) || isSmall(to) ? most / 5 : 0.15);
  return isNear || text(from) === text(to) ? `about ${text((from + to) / 2)}` : `${text(from)} to ${text(to)}`;
}

/** In what a reading is told; '' for what is said in words. */
export const unitOf = ({ observable }: Candidate): 'V' | 'A' | 'Ω' | '' =>
  observable.of === 'volts' ? 'V' : observable.of === 'amperes' ? 'A' : observable.of === 'ohms' ? 'Ω' : '';

/** Belief per suspect. */
export function massOf(held: readonly Held[], suspects: number): Float64Array {
  const mass = new Float64Array(suspects);
  for (const h of held) mass[h.suspect]! += h.mass;
  return mass;
}
