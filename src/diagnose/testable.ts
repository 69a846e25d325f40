import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Scene } from '../circuit/scene.ts';
import type { Fault } from '../faults/fault.ts';
import { amperesInto, type OperatingPoint } from '../solve/operatingPoint.ts';
import { type Probe, probesOf, type Stage, stagesOf } from './candidates.ts';
import { singleHypotheses } from './hypotheses.ts';
import { amperesTolerance, clampDrift_A, meterDrift_A, voltsTolerance } from './likelihood.ts';
import { sayingsOf } from './outcomes.ts';
import { Predictor } from './predict.ts';
import { type Together, whyTogether } from './together.ts';
import type { Vehicle } from './vehicles.ts';

/** What can be told apart in a circuit, by how much access. Faults that come and go are as their steady form and are left out. */
export type Testability = {
  readonly faults: number;
  /** Classes that looking alone tells apart, and faults that stand alone in theirs. */
  readonly byEye: { readonly classes: number; readonly alone: number };
  /** The same with a voltmeter at every place within reach, across every piece, and the current at the battery. */
  readonly byMeter: { readonly classes: number; readonly alone: number };
  /** Faults that no reading within reach tells apart, largest group first. */
  readonly groups: readonly (readonly string[])[];
  /** Every fault that is not alone, once, with the reason: together with `byMeter.alone` all of them. */
  readonly together: readonly Together[];
  /** Places out of reach that would tell more apart if they were brought out, best first: chosen greedily. */
  readonly added: readonly { readonly terminal: string; readonly minutes: number; readonly classes: number }[];
  /** Groups that remain with all of those: never told apart by volts in any scene of the table. */
  readonly never: readonly (readonly string[])[];
};

/** One fault of the circuit as it is put in for the comparison: the usual figure of its range. Without a fault: the healthy vehicle. */
export type Candidate = { readonly fault: Fault | undefined; readonly vehicle: Vehicle };
type Classes = readonly (readonly Candidate[])[];

/** A value that an instrument gives in one scene, and the half-width that it leaves. */
type Reading = { readonly of: (at: OperatingPoint) => number; readonly width: (value: number) => number };

/** A scene with what can be read in it. */
type Round = { readonly scene: Scene; readonly readings: readonly Reading[] };

/**
 * Which single faults can be told apart. Two are told apart by a reading when it differs by more than both tolerances,
 * in any scene of the position table and those of `roundsOf`; the healthy vehicle counts as one of them.
 *
 * @param within_min  places that take longer to reach are out of reach
 * Cost: one update for each fault and scene, up to a minute for a large vehicle.
 */
export function testability(circuit: Circuit, within_min = 15, predictor = new Predictor(circuit)): Testability {
  const all = candidates(circuit, predictor);
  const stages = stagesOf(predictor);
  const { points } = probesOf(predictor);
  const far = points.filter((p) => p.minutes > within_min);
  const seen = byEye(predictor, stages, all);
  const touched = new Set<Candidate>();
  const read = byMeter(predictor, roundsOf(predictor, stages, within_min), seen, touched);
  const marks = marksOf(predictor, stages, far, read);
  const added: { terminal: string; minutes: number; classes: number }[] = [];
  let best = read;
  while (added.length < mostAdded) {
    const tries = [...marks].map(([probe, mark]) => ({ probe, classes: refined(best, mark) }));
    const top = tries.reduce<(typeof tries)[number] | undefined>((a, b) => (a && a.classes.length >= b.classes.length ? a : b), undefined);
    if (!top || top.classes.length === best.length) break;
    best = top.classes;
    added.push({ terminal: top.probe.terminal, minutes: top.probe.minutes, classes: best.length });
    marks.delete(top.probe);
  }
  return {
    faults: all.length - 1,
    byEye: sizes(seen),
    byMeter: sizes(read),
    groups: named(read),
    together: whyTogether(predictor, read, best, touched),
    added,
    never: named(best),
  };
}

/**
 * What can be read in every scene of the table, and besides: with the engine running, with each switch operated that the
 * table leaves alone, and along the other ways to crank.
 */
function roundsOf(predictor: Predictor, stages: readonly Stage[], within_min: number): readonly Round[] {
  const near = new Map(
    probesOf(predictor)
      .points.filter((p) => p.minutes <= within_min)
      .map((p) => [p.node, p]),
  );
  const volts: Reading[] = [...near.keys()].map((node) => ({ of: (at) => voltsAtNode(at, node), width: ofVolts }));
  // Across a piece a fault shows that is lost against ground: half an ohm in the feed of a small lamp.
  const { branches } = predictor.vehicles.network(predictor.vehicles.healthy, stages[0]!.scene);
  const pairs = new Map(
    branches.filter((b) => near.has(b.from) && near.has(b.to)).map((b) => [`${b.from} ${b.to}`, [b.from, b.to] as const]),
  );
  const across: Reading[] = [...pairs.values()].map(([a, b]) => ({ of: (at) => voltsAtNode(at, a) - voltsAtNode(at, b), width: ofVolts }));
  const minus = minusOf(predictor.circuit);
  const current = (drift_A: number): readonly Reading[] =>
    minus === undefined ? [] : [{ of: (at) => amperesInto(at, minus), width: (ampere) => amperesTolerance(ampere, drift_A) }];
  const table = stages.filter((s) => s.meter).map((s) => s.scene);
  const atRest = table.filter((s) => Object.keys(s.hand).length === 0);
  const angles = keySwitchOf(predictor.circuit)?.model.positions.map((p) => p.angle) ?? [];
  const detents = atRest.filter((s) => s.key?.came === 'up' && angles.includes(s.key.angle));
  const running = predictor.circuit.engine === undefined ? [] : detents.map((s): Scene => ({ ...s, engine: 'running' }));
  const scenes = [...table, ...running, ...leftAlone(predictor.circuit, table, detents), ...otherWays(predictor, table)];
  return scenes.map((scene) => {
    // With the key out and nothing on, a meter in the battery's lead tells milliamperes; else the clamp has to do.
    const drift_A = scene === atRest[0] ? meterDrift_A : clampDrift_A;
    return { scene, readings: [...volts, ...across, ...(Object.keys(scene.hand).length === 0 ? current(drift_A) : [])] };
  });
}

type Action = readonly [part: string, setting: string];
const actionsOf = (circuit: Circuit): readonly Action[] =>
  [...circuit.parts.values()].flatMap((p) => (p.kind.settings?.(p) ?? []).slice(1).map((setting) => [p.id, setting] as const));

/** Each switch operated at the detents that the table never operates: the second of two that do the same. */
function leftAlone(circuit: Circuit, table: readonly Scene[], detents: readonly Scene[]): readonly Scene[] {
  return actionsOf(circuit)
    .filter(([part, setting]) => !table.some((s) => s.hand[part] === setting))
    .flatMap(([part, setting]) => detents.map((s): Scene => ({ ...s, hand: { [part]: setting } })));
}

/** Where one switch keeps the starter still and another brings it back: in gear, and with the clutch pulled. */
function otherWays(predictor: Predictor, table: readonly Scene[]): readonly Scene[] {
  if (!predictor.circuit.engine) return [];
  const cranks = (scene: Scene): boolean => {
    const [world] = predictor.expected(none, { scene, observable: { of: 'engine' } });
    return world?.is.of === 'engine' && world.is.cranks;
  };
  const usual = table.find((s) => s.key?.came !== 'back' && cranks(s));
  if (!usual) return [];
  const more = actionsOf(predictor.circuit).filter(([part]) => usual.hand[part] === undefined);
  const withAction = (scene: Scene, [part, setting]: Action): Scene => ({ ...scene, hand: { ...scene.hand, [part]: setting } });
  const locked = more.map((one) => ({ one, scene: withAction(usual, one) })).filter(({ scene }) => !cranks(scene));
  return locked.flatMap(({ one, scene }) => [
    scene,
    ...more
      .filter(([part]) => part !== one[0])
      .map((two) => withAction(scene, two))
      .filter(cranks),
  ]);
}

const ofVolts = (volt: number): number => voltsTolerance(volt, false);
const voltsAtNode = (at: OperatingPoint, node: number): number => (at.floats[node] === 1 ? 0 : at.nodeVolts[node]!);

/** Where the whole current of the vehicle passes. */
function minusOf(circuit: Circuit): string | undefined {
  for (const part of circuit.parts.values()) {
    const ends = part.kind.supply?.(part);
    if (ends) return `${part.id}.${ends[1]}`;
  }
  return undefined;
}

/** Test points that are proposed at most. */
const mostAdded = 8;

function candidates(circuit: Circuit, predictor: Predictor): readonly Candidate[] {
  const byName = new Map<string, Candidate>([['', { fault: undefined, vehicle: predictor.vehicles.healthy }]]);
  for (const { faults, suspect } of singleHypotheses(circuit)) {
    const [fault] = faults;
    if (!fault || fault.mode.sometimes) continue;
    // The middle grade stands for the range.
    if (byName.has(suspect) && fault.detail !== fault.mode.detail?.default) continue;
    byName.set(suspect, { fault, vehicle: predictor.vehicles.of(faults)[0]! });
  }
  return [...byName.values()];
}

const none: readonly Fault[] = [];

function byEye(predictor: Predictor, stages: readonly Stage[], all: readonly Candidate[]): Classes {
  const words = new Map<string, Candidate[]>();
  for (const candidate of all) {
    const held = [{ suspect: 0, mass: 1, faults: candidate.fault ? [candidate.fault] : none }];
    const key = stages.map((s) => s.looks.map((look) => sayingsOf(predictor, look, held)[0]?.label ?? '').join()).join('|');
    const same = words.get(key);
    if (same) same.push(candidate);
    else words.set(key, [candidate]);
  }
  return [...words.values()];
}

/**
 * Splits classes wherever what is read of their members leaves a gap that an instrument sees.
 *
 * @param touched gathers whose readings are not the very ones of the healthy vehicle
 */
function byMeter(predictor: Predictor, rounds: readonly Round[], classes: Classes, touched: Set<Candidate>): Classes {
  let now = classes;
  for (const { scene, readings } of rounds) {
    const healthy = predictor.vehicles.answer(predictor.vehicles.healthy, scene);
    now = now.flatMap((members) => {
      if (members.length < 2) return [members];
      const answers = new Map(members.map((m) => [m, predictor.vehicles.answer(m.vehicle, scene)]));
      const isSame = (at: OperatingPoint) => at.nodeVolts === healthy.nodeVolts && at.floats === healthy.floats;
      for (const [m, at] of answers) if (!isSame(at)) touched.add(m);
      return [...answers.values()].every(isSame) ? [members] : split(answers, readings, members);
    });
  }
  return now;
}

function split(answers: ReadonlyMap<Candidate, OperatingPoint>, readings: readonly Reading[], members: readonly Candidate[]): Classes {
  let classes: Classes = [members];
  for (const { of, width } of readings) {
    const value = (m: Candidate) => of(answers.get(m)!);
    classes = classes.flatMap((group) => (group.length < 2 ? [group] : cut(group, value, width)));
  }
  return classes;
}

/** For each place what its readings, scene by scene, say of each fault that is not alone in its class. */
function marksOf(
  predictor: Predictor,
  stages: readonly Stage[],
  probes: readonly Probe[],
  classes: Classes,
): Map<Probe, Map<Candidate, string>> {
  const marks = new Map(probes.map((p) => [p, new Map<Candidate, string>()]));
  for (const stage of stages) {
    if (!stage.meter) continue;
    for (const members of classes) {
      if (members.length < 2) continue;
      const answers = new Map(members.map((m) => [m, predictor.vehicles.answer(m.vehicle, stage.scene)]));
      for (const [probe, mark] of marks) {
        const parts = cut(members, (m) => voltsAtNode(answers.get(m)!, probe.node), ofVolts);
        if (parts.length > 1)
          for (const [k, part] of parts.entries()) for (const m of part) mark.set(m, `${mark.get(m) ?? ''} ${stage.scene.key?.angle} ${k}`);
      }
    }
  }
  return marks;
}

function refined(classes: Classes, mark: ReadonlyMap<Candidate, string>): Classes {
  return classes.flatMap((members) => {
    const parts = new Map<string, Candidate[]>();
    for (const m of members) {
      const key = mark.get(m) ?? '';
      const same = parts.get(key);
      if (same) same.push(m);
      else parts.set(key, [m]);
    }
    return [...parts.values()];
  });
}

/** Sorted by value, cut where the gap is wider than both tolerances. */
function cut(group: readonly Candidate[], value: (m: Candidate) => number, width: (value: number) => number): Classes {
  const order = group.map((m) => ({ m, at: value(m) })).sort((a, b) => a.at - b.at);
  const parts: Candidate[][] = [[order[0]!.m]];
  for (let k = 1; k < order.length; k++) {
    const [low, high] = [order[k - 1]!.at, order[k]!.at];
    if (high - low > width(low) + width(high)) parts.push([]);
    parts.at(-1)!.push(order[k]!.m);
  }
  return parts.length === 1 ? [group] : parts;
}

const sizes = (classes: Classes) => ({
  classes: classes.length,
  alone: classes.filter((c) => c.length === 1 && c[0]!.fault !== undefined).length,
});
const named = (classes: Classes): readonly (readonly string[])[] =>
  classes
    .map((c) => c.flatMap((m) => m.fault?.phrase ?? []))
    .filter((c) => c.length > 1)
    .sort((a, b) => b.length - a.length);
