import { alreadySeen, type Candidate, candidates, type Tool, usualTools } from './candidates.ts';
import type { Finding } from './finding.ts';
import { voltsTolerance } from './likelihood.ts';
import { believed, bitsOf, type Outcome, outcomesOf, type Weighted } from './outcomes.ts';
import type { Predictor } from './predict.ts';
import type { Suspect } from './suspects.ts';

/** A reading worth taking, with all that can come of it. */
export type NextReading = {
  readonly candidate: Candidate;
  readonly bits: number;
  /** Bits a minute, price counted as minutes of labour. */
  readonly worth: number;
  readonly outcomes: readonly Outcome[];
};

/** Labour for one unit of money, minutes: 75 to 150 an hour are common, so a unit is about half a minute (price guides, weak; estimate). */
const minutesPerMoney = 0.5;
/** Readings looked at two steps deep when they are this close to the best. */
const closeBy = 0.75;
const deepest = 5;
/** Under this a reading tells nothing worth a walk, bits. */
const leastBits = 0.01;

/**
 * The readings worth most, best first: expected information about which suspect it is, per minute, with access, price
 * and effort counted in; when the first are close, the one that leaves the better second reading wins. Looks and
 * questions win by costing next to nothing.
 *
 * Cost: one solve for each believed hypothesis and scene; readings in one scene share it.
 */
export function nextReadings(
  predictor: Predictor,
  suspects: readonly Suspect[],
  findings: readonly Finding[],
  tools: readonly Tool[] = usualTools,
  most = 6,
): readonly NextReading[] {
  const held = believed(suspects);
  if (held.length < 2) return [];
  const suspected = [...new Set(held.flatMap((h) => h.faults.map((f) => f.part)))].slice(0, 12);
  const ranked: NextReading[] = [];
  for (const candidate of candidates(predictor, tools, suspected)) {
    if (tellsNothing(predictor, candidate, held) || alreadySeen(candidate, findings)) continue;
    const outcomes = outcomesOf(predictor, candidate, held, suspects.length);
    if (outcomes.length < 2) continue;
    const bits = bitsOf(outcomes, held, suspects.length);
    if (bits < leastBits) continue;
    ranked.push({ candidate, bits, worth: bits / (candidate.minutes + candidate.price * minutesPerMoney + 0.3), outcomes });
  }
  ranked.sort((a, b) => b.worth - a.worth);
  const alike = new Set<string>();
  const distinct = ranked.filter((r) => {
    const key = r.outcomes.map((o) => o.shares.map((x) => Math.round(x * 1e4)).join()).join('|');
    return !alike.has(key) && alike.add(key);
  });
  const close = distinct.filter((r) => r.worth >= closeBy * (distinct[0]?.worth ?? 0)).slice(0, deepest);
  const deep = close.map((r) => ({ r, worth: twoSteps(r, distinct.slice(0, 40), held, suspects.length) }));
  deep.sort((a, b) => b.worth - a.worth);
  return [...deep.map((d) => d.r), ...distinct.filter((r) => !close.includes(r))].slice(0, most);
}

/** Quick sift: volts that come out alike, to half an instrument's tolerance, whoever is to blame. */
function tellsNothing(predictor: Predictor, { scene, observable }: Candidate, held: readonly Weighted[]): boolean {
  if (observable.of !== 'volts') return false;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const h of held)
    for (const volt of predictor.volts(h.faults, scene, observable.at, observable.to)) {
      low = Math.min(low, volt ?? 0);
      high = Math.max(high, volt ?? 0);
    }
  return high - low <= voltsTolerance(Math.min(Math.abs(low), Math.abs(high)), false);
}

/** Bits a minute of a reading together with the best that could follow each of its outcomes. */
function twoSteps(first: NextReading, others: readonly NextReading[], held: readonly Weighted[], suspects: number): number {
  const mass = new Float64Array(suspects);
  for (const h of held) mass[h.suspect]! += h.mass;
  let bits = first.bits;
  let minutes = first.candidate.minutes + 0.3;
  for (const o of first.outcomes) {
    const after: Weighted[] = [...o.shares].flatMap((share, suspect) =>
      share > 0 ? [{ suspect, mass: share / o.probability, faults: [] }] : [],
    );
    let best = { bits: 0, worth: 0, minutes: 0 };
    for (const next of others) {
      if (next === first) continue;
      const left = next.outcomes.map((n) => conditional(n, o, mass));
      const more = bitsOf(left, after, suspects);
      const worth = more / (next.candidate.minutes + 0.3);
      if (worth > best.worth) best = { bits: more, worth, minutes: next.candidate.minutes + 0.3 };
    }
    bits += o.probability * best.bits;
    minutes += o.probability * best.minutes;
  }
  return bits / minutes;
}

/** A second outcome's shares after a first: what a suspect says of the second does not depend on the first. */
function conditional(second: Outcome, first: Outcome, mass: Float64Array): Outcome {
  const shares = new Float64Array(mass.length);
  let probability = 0;
  for (let s = 0; s < mass.length; s++) {
    if (first.shares[s] === 0 || mass[s] === 0) continue;
    shares[s] = (first.shares[s]! / first.probability) * (second.shares[s]! / mass[s]!);
    probability += shares[s]!;
  }
  return { seen: second.seen, probability, shares };
}
