import { afterRepair } from './afterRepair.ts';
import { branchingAfter, conditioned, informationBits } from './bayes.ts';
import { handsOn, type Stage, stagesOf, type Tool, usualTools } from './candidates.ts';
import { minutesPerMoney, step_min } from './costs.ts';
import type { Finding } from './finding.ts';
import { believed, type Held, massOf } from './outcomes.ts';
import { clamping, unplugging } from './parting.ts';
import type { Predictor } from './predict.ts';
import { doubted, sameAs, secondLooks } from './secondLooks.ts';
import { byWorth, type NextReading, Survey } from './survey.ts';
import type { Suspect } from './suspects.ts';

/** Readings are looked at two steps deep when they are this close to the best, so many of them, each with so many that may follow (estimates: what a second allows). */
const closeBy = 0.75;
const deepest = 5;
const seconds = 30;

/**
 * The readings worth most, best first: expected information about which suspect it is, per minute, with access, price
 * and effort counted in; when the first are close, the one that leaves the better second reading wins. Looks and
 * questions win by costing next to nothing.
 *
 * Cost: one update for each believed grade and scene; readings in one scene share it.
 */
export function nextReadings(
  predictor: Predictor,
  suspects: readonly Suspect[],
  findings: readonly Finding[],
  tools: readonly Tool[] = usualTools,
  most = 6,
): readonly NextReading[] {
  const held = believed(suspects);
  if (held.length < 2) return secondLooks(predictor, suspects, findings);
  const many = 1 + Math.max(...held.map((h) => h.suspect));
  const doubts = doubted(suspects, findings);
  const readings = bestOf(worthwhile(predictor, held, many, findings, tools, 8, doubts), massOf(held, many), most);
  const again = secondLooks(predictor, suspects, findings);
  // A figure that most of the belief takes for a slip: everything else hangs on it, so it is read once more before all others.
  const last = ({ candidate }: NextReading) => findings.reduce((at, f, k) => (sameAs(candidate)(f) ? k : at), -1);
  const first = again.filter((r) => isDisbelieved(last(r), suspects, findings)).slice(0, 1);
  if (first.length === 0 && readings.some((r) => r.again)) return readings;
  const rest = [...readings, ...again].filter((r) => !first.some((f) => sameAs(f.candidate)(r.candidate)));
  return [...first, ...rest].slice(0, most);
}

function isDisbelieved(k: number, suspects: readonly Suspect[], findings: readonly Finding[]): boolean {
  if (!('value' in findings[k]!.seen)) return false;
  return suspects.reduce((sum, s) => sum + (s.against.includes(k) ? s.probability : 0), 0) > 0.5;
}

/**
 * Readings that tell believed suspects apart, unordered. Once there are `atLeast` of them, none is looked at that cannot
 * be worth more than the last of these.
 *
 * @param doubts findings that may be looked at again
 */
export function worthwhile(
  predictor: Predictor,
  held: readonly Held[],
  suspects: number,
  findings: readonly Finding[],
  tools: readonly Tool[],
  atLeast = 8,
  doubts: readonly Finding[] = [],
): readonly NextReading[] {
  const all = new Survey(predictor, held, suspects, findings, tools, atLeast, doubts);
  const amiss = amissIn(predictor, findings);
  for (const stage of promising(predictor, held, suspects, findings, tools, doubts, amiss)) all.lookAt(stage);
  const suspected = [...new Set(held.flatMap((h) => h.faults.map((f) => f.part)))].slice(0, 12);
  for (const candidate of handsOn(predictor, suspected, tools, missedIn(predictor, amiss))) all.ask(candidate);
  if (tools.includes('clamp')) for (const candidate of clamping(predictor, suspected, amiss)) all.ask(candidate);
  const sets = held.map((h) => h.faults);
  for (const candidate of unplugging(predictor, suspected, amiss, sets)) all.ask(candidate);
  return all.ranked;
}

/** With half as many again believed, a sample of so many tells where to look closely (estimate: what a second allows). */
const sampled = 16;
/** Stages that are then looked at with everybody (estimate). */
const mostStages = 12;

/**
 * The stages in which a sample of the believed are told apart best, in their own order, and those of findings that may be
 * looked at again. Where something is amiss the meter is always put: cheap looks elsewhere may be worth more now, but a
 * plan that is made of them alone ends before the place is found.
 */
function promising(
  predictor: Predictor,
  held: readonly Held[],
  suspects: number,
  findings: readonly Finding[],
  tools: readonly Tool[],
  doubts: readonly Finding[],
  amiss: readonly Finding[],
): readonly Stage[] {
  const stages = stagesOf(predictor);
  if (held.length <= 1.5 * sampled || stages.length <= mostStages) return stages;
  const step = Math.ceil(held.length / sampled);
  const some = held.filter((_h, k) => k % step === 0);
  const whole = some.reduce((sum, h) => sum + h.mass, 0);
  const sample = some.map((h) => ({ ...h, mass: h.mass / whole }));
  const best = stages.map((stage) => {
    const survey = new Survey(predictor, sample, suspects, findings, tools, 1, doubts);
    survey.lookAt(stage);
    return survey.ranked.reduce((most, r) => Math.max(most, r.worth), 0);
  });
  const least = [...best].sort((a, b) => b - a)[mostStages - 1]!;
  const again = new Set([...doubts, ...amiss].map((f) => JSON.stringify(f.scene)));
  return stages.filter((stage, k) => best[k]! >= Math.max(least, Number.MIN_VALUE) || again.has(JSON.stringify(stage.scene)));
}

/** Loads that were found not to work as they should, and those that the engine lives by where it was the engine. */
function missedIn({ circuit }: Predictor, amiss: readonly Finding[]): readonly string[] {
  const { spark = [], fuel = [] } = circuit.engine ?? {};
  const missed = amiss.flatMap(({ observable: o }) => (o.of === 'load' ? [o.load] : o.of === 'engine' ? [...spark, ...fuel] : []));
  return [...new Set(missed)];
}

/** Findings that a sound vehicle would hardly give. */
function amissIn(predictor: Predictor, findings: readonly Finding[]): readonly Finding[] {
  return afterRepair(predictor, findings, []).amiss;
}

/** Best first, and of readings that tell the same thing only the best. */
export function distinctOf(readings: readonly NextReading[]): readonly NextReading[] {
  const ranked = [...readings].sort((a, b) => byWorth(a, b) || a.minutes - b.minutes);
  const alike = new Set<string>();
  return ranked.filter((r) => {
    const key = r.outcomes.map((o) => [...o.shares].map((x) => Math.round(x * 1e4)).join()).join('|');
    return !alike.has(key) && alike.add(key);
  });
}

/** The first few of the distinct ones looked at two steps deep. */
function bestOf(readings: readonly NextReading[], mass: Float64Array, most: number): readonly NextReading[] {
  const distinct = distinctOf(readings);
  const close = distinct.filter((r) => r.worth >= closeBy * (distinct[0]?.worth ?? 0)).slice(0, deepest);
  if (close.length < 2) return distinct.slice(0, most);
  const others = distinct.slice(0, seconds);
  const deep = close.map((r) => ({ r, worth: twoSteps(r, others, mass) }));
  deep.sort(byWorth);
  return [...deep.map((d) => d.r), ...distinct.filter((r) => !close.includes(r))].slice(0, most);
}

/** Bits a minute of a reading together with the best that could follow each of its outcomes. */
function twoSteps(first: NextReading, others: readonly NextReading[], mass: Float64Array): number {
  let bits = first.bits;
  let minutes = first.minutes + step_min;
  for (const o of first.outcomes) {
    const after = conditioned(o);
    let best = { bits: 0, worth: 0, minutes: 0 };
    for (const next of others) {
      if (next === first) continue;
      const more = informationBits(branchingAfter(next.outcomes, mass, after), after);
      const cost = next.minutes + next.candidate.price * minutesPerMoney + step_min;
      if (more / cost > best.worth) best = { bits: more, worth: more / cost, minutes: cost };
    }
    bits += o.probability * best.bits;
    minutes += o.probability * best.minutes;
  }
  return bits / minutes;
}
