import type { Circuit } from '../circuit/circuit.ts';
import { ownerOf } from '../circuit/ownerOf.ts';
import { step_min } from '../diagnose/costs.ts';
import type { Finding } from '../diagnose/finding.ts';
import type { Predictor } from '../diagnose/predict.ts';
import type { Suspect } from '../diagnose/suspects.ts';
import { changesOf, type Fault } from '../faults/fault.ts';
import { benchReadings, type DrainReading, quietReadings, unplugReadings, type Way } from './drainReadings.ts';
import { expectText, predictedValue, readingPhrase } from './expected.ts';
import { keyOff } from './keyOff.ts';
import { bitsOf, type Share } from './worth.ts';

/** One reading of the plan. */
export type PlanStep = {
  readonly way: Way;
  /** As a finding says it, with the figure left out: `key out: … mV from F1.1 to F1.2`. */
  readonly reading: string;
  /** What it would read on the healthy vehicle, and with what is supposed. */
  readonly healthy: string;
  readonly supposed: string | undefined;
  /** V, A or Ω of the same; undefined for a look, null for a point tied to nothing. */
  readonly healthyValue: number | null | undefined;
  readonly supposedValue: number | null | undefined;
  readonly minutes: number;
  readonly bits: number;
  readonly bitsPerMinute: number;
  readonly cautions: readonly string[];
  readonly of: DrainReading;
};

/** Grades of suspects that the readings are weighed against. */
const mostShares = 160;
/** Parts that are thought of for unplugging and the bench. */
const mostParts = 8;
const mostOnTheWay = 6;
/** A draw over the designed one by this much is followed, A. */
const leastMore_A = 0.003;
/** Under this a reading tells nothing, bits. */
const leastBits = 0.01;

/**
 * Readings in the order in which they are worth taking: the whole current first, since nothing else is a drain; then by
 * bits about which suspect it is, per minute. What wakes nothing comes before what is unplugged, and that before the bench.
 *
 * @param supposed  what is thought to be in; its expected readings stand beside the healthy ones
 */
export function drainPlan(
  predictor: Predictor,
  suspects: readonly Suspect[],
  findings: readonly Finding[],
  supposed: readonly Fault[],
  most = 12,
): readonly PlanStep[] {
  const { circuit } = predictor;
  const shares = sharesOf(suspects);
  const parts = suspectedParts(circuit, suspects, supposed);
  const value = (readings: readonly DrainReading[]): readonly PlanStep[] =>
    readings
      .filter((r) => !isRead(r, findings))
      .map((r) => stepOf(predictor, r, supposed, shares, suspects.length))
      .filter((s) => s.bits >= leastBits || s.way === 'clamp' || isTelling(s))
      .sort((a, b) => b.bitsPerMinute - a.bitsPerMinute || a.minutes - b.minutes);
  const quiet = value(quietReadings(circuit));
  const rest = [...value(unplugReadings(circuit, parts)), ...value(benchReadings(predictor, parts))];
  const cable = quiet.filter((s) => s.way === 'clamp');
  const looks = quiet.filter((s) => s.way === 'look').slice(0, 3);
  const read = quiet.filter((s) => s.way !== 'look' && s.way !== 'clamp');
  const byWorth = [...looks, ...read].sort((a, b) => b.bitsPerMinute - a.bitsPerMinute || a.minutes - b.minutes);
  // What the hypothesis itself makes read otherwise is never left out.
  const room = Math.max(4, most - 4);
  const kept = new Set([...byWorth.filter(isTelling).slice(0, 3), ...byWorth].slice(0, room));
  const first = [...cable, ...byWorth.filter((s) => kept.has(s))];
  return [...first, ...rest.slice(0, Math.max(0, most - first.length))];
}

const isTelling = (s: PlanStep): boolean => s.supposed !== undefined && s.supposed !== s.healthy;

/**
 * The reading that decides whether a hypothesis holds: most bits a minute about yes or no, of all readings.
 *
 * @returns undefined when no reading parts it from its rivals
 */
export function decidingReading(
  predictor: Predictor,
  suspects: readonly Suspect[],
  findings: readonly Finding[],
  fault: Fault,
): PlanStep | undefined {
  const own = suspects.findIndex((s) => s.faults.some((f) => f.mode === fault.mode));
  const shares = evenOdds(sharesOf(suspects), own, fault);
  const parts = suspectedParts(predictor.circuit, suspects, [fault]);
  const all = [...quietReadings(predictor.circuit), ...unplugReadings(predictor.circuit, parts), ...benchReadings(predictor, parts)];
  const steps = all.filter((r) => !isRead(r, findings)).map((r) => stepOf(predictor, r, [fault], shares, 2));
  const telling = steps.filter((s) => s.bits >= leastBits).sort((a, b) => b.bits - a.bits);
  // Of those that tell nearly as much as the best, the quickest: a reading decides, or it does not.
  const enough = telling.filter((s) => s.bits >= 0.8 * telling[0]!.bits);
  return enough.sort((a, b) => a.minutes - b.minutes || b.bits - a.bits)[0];
}

/** The hypothesis on one side, its rivals on the other, as if the odds were even: what counts is what parts them. */
function evenOdds(shares: readonly Share[], own: number, fault: Fault): readonly Share[] {
  const rivals = shares.filter((s) => s.state !== own);
  const mass = rivals.reduce((sum, s) => sum + s.mass, 0) || 1;
  return [{ faults: [fault], mass: 0.5, state: 0 }, ...rivals.map((s) => ({ ...s, mass: (0.5 * s.mass) / mass, state: 1 }))];
}

function sharesOf(suspects: readonly Suspect[]): readonly Share[] {
  const all = suspects.flatMap((s, state) => s.grades.map((g) => ({ faults: g.weighed.hypothesis.faults, mass: g.share, state })));
  const kept = all.sort((a, b) => b.mass - a.mass).slice(0, mostShares);
  const mass = kept.reduce((sum, s) => sum + s.mass, 0) || 1;
  return kept.map((s) => ({ ...s, mass: s.mass / mass }));
}

/** Parts that carry most of the suspicion, what is supposed first, and the plugs on the way of what it draws. */
function suspectedParts(circuit: Circuit, suspects: readonly Suspect[], supposed: readonly Fault[]): readonly string[] {
  const weight = new Map<string, number>();
  for (const s of suspects) for (const f of s.faults) weight.set(f.part, (weight.get(f.part) ?? 0) + s.probability);
  const ranked = [...weight].sort((a, b) => b[1] - a[1]).map(([id]) => id);
  const isBare = (id: string) => circuit.parts.get(id)?.kind.isWire !== true;
  return [...new Set([...supposed.map((f) => f.part), ...plugsOnTheWay(circuit, supposed), ...ranked.filter(isBare).slice(0, mostParts)])];
}

/** Parts other than wires through which the current passes that is drawn on top of the healthy vehicle's. */
function plugsOnTheWay(circuit: Circuit, supposed: readonly Fault[]): readonly string[] {
  if (supposed.length === 0) return [];
  const more = keyOff(circuit, changesOf(supposed)).draws.filter((d) => d.amperes > d.expected + leastMore_A);
  const passed = more.slice(0, 2).flatMap((d) => d.feed.flatMap((t) => circuit.parts.get(ownerOf(t)) ?? []));
  return [...new Set(passed.filter((p) => p.kind.shunt === undefined).map((p) => p.id))].slice(0, mostOnTheWay);
}

function stepOf(
  predictor: Predictor,
  reading: DrainReading,
  supposed: readonly Fault[],
  shares: readonly Share[],
  states: number,
): PlanStep {
  const sound = predictor.expected([], reading)[0]!.is;
  const faulty = supposed.length === 0 ? undefined : predictor.expected(supposed, reading)[0]!.is;
  const bits = bitsOf(predictor, reading, shares, states);
  return {
    way: reading.way,
    reading: readingPhrase(reading, predictor.circuit),
    healthy: expectText(sound),
    supposed: faulty && expectText(faulty),
    healthyValue: predictedValue(sound),
    supposedValue: faulty && predictedValue(faulty),
    minutes: reading.minutes,
    bits,
    bitsPerMinute: bits / (reading.minutes + step_min),
    cautions: reading.cautions,
    of: reading,
  };
}

/** Read already, with whatever instrument. */
const isRead = (r: DrainReading, findings: readonly Finding[]): boolean => findings.some((f) => questionOf(f) === questionOf(r));
const questionOf = ({ scene, observable }: Pick<Finding, 'scene' | 'observable'>): string => {
  const bench = observable.of === 'ohms';
  return JSON.stringify([bench ? '' : scene, { ...observable, instrument: '' }]);
};
