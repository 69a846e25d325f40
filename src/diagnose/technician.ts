import type { Fault } from '../faults/fault.ts';
import { type Candidate, handsOn, stagesOf, type Tool, usualTools } from './candidates.ts';
import { type Belief, belief } from './diagnose.ts';
import type { Finding } from './finding.ts';
import { findingText } from './findingText.ts';
import type { Hypothesis } from './hypotheses.ts';
import { nextReadings } from './nextReading.ts';
import { asSeen, type Saying, sayingsOf } from './outcomes.ts';
import type { Predictor } from './predict.ts';
import type { NextReading } from './survey.ts';
import { caseVerdict, placeName } from './verdict.ts';

/** How a simulated search went. */
export type Played = {
  /** The true fault is the leader, in the leader's place, or told apart from it by nothing that was said. */
  readonly isolated: boolean;
  /** The true fault is among the first three suspects or in one of their groups. */
  readonly amongThree: boolean;
  readonly state: string;
  readonly readings: number;
  readonly minutes: number;
  readonly findings: readonly Finding[];
};

export type PlayOptions = {
  readonly tools?: readonly Tool[];
  /** Share of readings that are plainly wrong. */
  readonly slips?: number;
  /** Readings after which the technician gives up. */
  readonly most?: number;
};

/** Spread of a voltmeter reading at the vehicle, share of the value and volts: meter, clip, battery state (estimate). */
const volts_share = 0.01;
const volts_least = 0.03;
/** More than this above the healthy draw empties a battery within weeks, A. */
const noticed_A = 0.05;

/**
 * A technician who does what the search proposes, with instruments that are a little off and a slip now and then,
 * at a vehicle with a known fault in it. For measuring the search, and for nothing else.
 *
 * @param truth   what is in the vehicle
 * @param random  chance in [0, 1), seeded by the caller
 * @returns undefined when the fault changes nothing that a driver would notice
 */
export function played(predictor: Predictor, truth: Hypothesis, random: () => number, options: PlayOptions = {}): Played | undefined {
  const { tools = usualTools, slips = 0.02, most = 14 } = options;
  const findings: Finding[] = [...complaint(predictor, truth, random)];
  if (findings.length === 0) return undefined;
  let minutes = 0;
  let readings = 0;
  for (;;) {
    const held = belief(predictor.circuit, findings, {}, predictor);
    const next = readings < most ? nextReadings(predictor, held.suspects, held.findings, tools) : [];
    const verdict = caseVerdict(held.suspects, held.findings, held.clashes, next, []);
    const [best] = next;
    // What the proved cause leaves over is a slip or a second fault: the search goes on while a look can tell which.
    if (best === undefined || (verdict.state === 'proved' && verdict.unexplained.length === 0))
      return { ...judged(held, truth), state: verdict.state, readings, minutes, findings };
    findings.push(taken(predictor, best, truth, random, slips));
    readings++;
    minutes += best.minutes;
  }
}

/**
 * The first thing or two that a driver would notice of each fault: something that does not do as in the healthy vehicle,
 * nor as it would without this fault. None when a fault hides behind the others: that is no search for several.
 */
function complaint(predictor: Predictor, truth: Hypothesis, random: () => number): readonly Finding[] {
  const each = truth.faults.map((fault) => noticed(predictor, truth, fault, random));
  if (truth.faults.length > 1 && each.some((found) => found.length === 0)) return [];
  const found = each.flat();
  const distinct = found.filter((f, k) => found.findIndex((g) => g.phrase === f.phrase) === k);
  return distinct.length > 0 ? distinct : drain(predictor, truth);
}

/** What is seen of one fault in the vehicle with all of its faults in. */
function noticed(predictor: Predictor, truth: Hypothesis, fault: Fault, random: () => number): readonly Finding[] {
  const others = truth.faults.filter((f) => f !== fault);
  const found: Finding[] = [];
  for (const stage of stagesOf(predictor)) {
    for (const look of [...stage.looks, ...stage.unasked]) {
      const said = (faults: Hypothesis['faults']) => saidBy(predictor, look, faults);
      const unlike = (faults: Hypothesis['faults']) => {
        const labels = said(faults).map((s) => s.label);
        return (s: Saying) => !labels.includes(s.label);
      };
      const now = said(truth.faults);
      const changed = now.filter(unlike([]));
      if (changed.length === 0 || (others.length > 0 && !changed.some(unlike(others)))) continue;
      const { scene, observable } = look;
      const seen = asSeen(drawn(changed, random).label);
      found.push({ scene, observable, seen, phrase: findingText({ scene, observable, seen }, predictor.circuit) });
      if (found.length === 2) return found;
      break;
    }
  }
  return found;
}

/** What a flat battery leads to: the current with the key out, when it is plainly more than it ought to be. */
function drain(predictor: Predictor, truth: Hypothesis): readonly Finding[] {
  const [reading] = handsOn(predictor, [], ['clamp']);
  if (!reading) return [];
  const { scene, observable } = reading;
  const amperes = (faults: Hypothesis['faults']) => saidBy(predictor, reading, faults)[0]?.at ?? 0;
  const now = amperes(truth.faults);
  if (now < amperes([]) + noticed_A) return [];
  const seen = { value: Number(now.toPrecision(3)) };
  return [{ scene, observable, seen, phrase: findingText({ scene, observable, seen }, predictor.circuit) }];
}

/** What the technician notes down. */
function taken(
  predictor: Predictor,
  { candidate, outcomes }: NextReading,
  truth: Hypothesis,
  random: () => number,
  slips: number,
): Finding {
  const { scene, observable } = candidate;
  const slipped = random() < slips;
  const right = read(drawn(saidBy(predictor, candidate, truth.faults), random), random);
  const wrong = slipped ? outcomes.map((o) => o.as).filter((as) => as !== nearest(outcomes, right)) : [];
  const seen = wrong.length > 0 ? rounded(wrong[Math.floor(random() * wrong.length)]!) : right;
  return { scene, observable, seen, phrase: findingText({ scene, observable, seen }, predictor.circuit) };
}

/** The outcome that what was seen belongs to. */
function nearest(outcomes: NextReading['outcomes'], seen: Finding['seen']): Finding['seen'] | undefined {
  const off = (as: Finding['seen']): number => {
    if ('value' in as && 'value' in seen) return as.value === seen.value ? 0 : Math.abs(as.value - seen.value);
    return JSON.stringify(as) === JSON.stringify(seen) ? 0 : Number.POSITIVE_INFINITY;
  };
  const [first] = outcomes.map((o) => o.as).sort((a, b) => off(a) - off(b));
  return first && off(first) < Number.POSITIVE_INFINITY ? first : undefined;
}

/** What the vehicle itself would show, solved whole: no shortcut of the search may decide what is so. */
function saidBy(predictor: Predictor, candidate: Candidate, faults: Hypothesis['faults']): readonly Saying[] {
  return predictor.vehicles.exactly(() => sayingsOf(predictor, candidate, [{ suspect: 0, mass: 1, faults }]));
}

function drawn(sayings: readonly Saying[], random: () => number): Saying {
  let left = random() * sayings.reduce((sum, s) => sum + s.of.weight * s.chance, 0);
  for (const s of sayings) {
    left -= s.of.weight * s.chance;
    if (left <= 0) return s;
  }
  return sayings.at(-1)!;
}

function read(saying: Saying, random: () => number): Finding['seen'] {
  if (saying.label !== '') return asSeen(saying.label);
  // Sum of three even draws: near enough to a bell.
  const noise = (random() + random() + random() - 1.5) * 2;
  const spread = (volts_least + volts_share * Math.abs(saying.at)) * (saying.width < 0.05 ? 0.2 : 1);
  // A meter in its millivolt range reads finer than anything else.
  const value = saying.at + noise * Math.min(spread, saying.width);
  return rounded({ value });
}

/** As a display shows it. */
const rounded = (seen: Finding['seen']): Finding['seen'] => ('value' in seen ? { value: Number(seen.value.toPrecision(4)) } : seen);

function judged({ suspects }: Belief, truth: Hypothesis): { isolated: boolean; amongThree: boolean } {
  const name = (k: number) => suspects[k]!.grades[0]!.weighed.hypothesis.suspect;
  const fits = (k: number) => suspects[k]!.grades[0]!.weighed.fits.map((x) => x.toFixed(2)).join();
  const own = suspects.findIndex((_s, k) => name(k) === truth.suspect);
  if (own < 0) return { isolated: false, amongThree: false };
  const like = (k: number) => k === own || placeName(suspects[k]!) === placeName(suspects[own]!) || fits(k) === fits(own);
  return { isolated: like(0), amongThree: [0, 1, 2].some((k) => k < suspects.length && like(k)) };
}
