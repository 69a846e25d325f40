import type { Circuit } from '../circuit/circuit.ts';
import type { Fault } from '../faults/fault.ts';
import { type Probe, probesOf, type Stage, stagesOf } from './candidates.ts';
import { singleHypotheses } from './hypotheses.ts';
import { voltsTolerance } from './likelihood.ts';
import { sayingsOf } from './outcomes.ts';
import { Predictor } from './predict.ts';
import type { Vehicle } from './vehicles.ts';

/** What can be told apart in a circuit, by how much access. Faults that come and go are as their steady form and are left out. */
export type Testability = {
  readonly faults: number;
  /** Classes that looking alone tells apart, and faults that stand alone in theirs. */
  readonly byEye: { readonly classes: number; readonly alone: number };
  /** The same with a voltmeter at every place within reach. */
  readonly byMeter: { readonly classes: number; readonly alone: number };
  /** Faults that no reading within reach tells apart, largest group first. */
  readonly groups: readonly (readonly string[])[];
  /** Places out of reach that would tell more apart if they were brought out, best first: chosen greedily. */
  readonly added: readonly { readonly terminal: string; readonly minutes: number; readonly classes: number }[];
  /** Groups that remain with all of those: never told apart by volts in any scene of the table. */
  readonly never: readonly (readonly string[])[];
};

/** One fault of the circuit as it is put in for the comparison: the usual figure of its range. */
type Candidate = { readonly fault: Fault; readonly vehicle: Vehicle };
type Classes = readonly (readonly Candidate[])[];

/**
 * Which single faults can be told apart. Two are told apart by a reading when it differs by more than both tolerances,
 * in any scene of the position table; the healthy vehicle counts as one of them.
 *
 * @param within_min  places that take longer to reach are out of reach
 * Cost: one update for each fault and scene, a few seconds for a large vehicle.
 */
export function testability(circuit: Circuit, within_min = 15, predictor = new Predictor(circuit)): Testability {
  const all = candidates(circuit, predictor);
  const stages = stagesOf(predictor);
  const { points } = probesOf(predictor);
  const near = points.filter((p) => p.minutes <= within_min);
  const far = points.filter((p) => p.minutes > within_min);
  const seen = byEye(predictor, stages, all);
  const read = byMeter(predictor, stages, near, seen);
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
    faults: all.length,
    byEye: sizes(seen),
    byMeter: sizes(read),
    groups: named(read),
    added,
    never: named(best),
  };
}

/** Test points that are proposed at most. */
const mostAdded = 8;

function candidates(circuit: Circuit, predictor: Predictor): readonly Candidate[] {
  const byName = new Map<string, Candidate>();
  for (const { faults, suspect } of singleHypotheses(circuit)) {
    const [fault] = faults;
    if (!fault || fault.mode.sometimes) continue;
    // The middle grade stands for the range.
    if (byName.has(suspect) && fault.detail !== fault.mode.detail?.default) continue;
    byName.set(suspect, { fault, vehicle: predictor.vehicles.of(faults)[0]! });
  }
  return [...byName.values()];
}

function byEye(predictor: Predictor, stages: readonly Stage[], all: readonly Candidate[]): Classes {
  const words = new Map<string, Candidate[]>();
  for (const candidate of all) {
    const held = [{ suspect: 0, mass: 1, faults: [candidate.fault] }];
    const key = stages.map((s) => s.looks.map((look) => sayingsOf(predictor, look, held)[0]?.label ?? '').join()).join('|');
    const same = words.get(key);
    if (same) same.push(candidate);
    else words.set(key, [candidate]);
  }
  return [...words.values()];
}

/** Splits classes wherever the readings of their members at these places leave a gap that an instrument sees. */
function byMeter(predictor: Predictor, stages: readonly Stage[], probes: readonly Probe[], classes: Classes): Classes {
  let now = classes;
  for (const stage of stages) {
    if (!stage.meter) continue;
    now = now.flatMap((members) => (members.length < 2 ? [members] : split(predictor, stage, probes, members)));
  }
  return now;
}

function split(predictor: Predictor, stage: Stage, probes: readonly Probe[], members: readonly Candidate[]): Classes {
  const answers = new Map(members.map((m) => [m, predictor.vehicles.answer(m.vehicle, stage.scene)]));
  const [first] = answers.values();
  if ([...answers.values()].every((at) => at.nodeVolts === first!.nodeVolts && at.floats === first!.floats)) return [members];
  let classes: Classes = [members];
  for (const { node } of probes) {
    const volts = (m: Candidate) => {
      const at = answers.get(m)!;
      return at.floats[node] === 1 ? 0 : at.nodeVolts[node]!;
    };
    classes = classes.flatMap((group) => (group.length < 2 ? [group] : cut(group, volts)));
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
        const parts = cut(members, (m) => (answers.get(m)!.floats[probe.node] === 1 ? 0 : answers.get(m)!.nodeVolts[probe.node]!));
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

function cut(group: readonly Candidate[], volts: (m: Candidate) => number): Classes {
  const order = [...group].sort((a, b) => volts(a) - volts(b));
  const parts: Candidate[][] = [[order[0]!]];
  for (let k = 1; k < order.length; k++) {
    const [low, high] = [volts(order[k - 1]!), volts(order[k]!)];
    if (high - low > voltsTolerance(low, false) + voltsTolerance(high, false)) parts.push([]);
    parts.at(-1)!.push(order[k]!);
  }
  return parts;
}

const sizes = (classes: Classes) => ({ classes: classes.length, alone: classes.filter((c) => c.length === 1).length });
const named = (classes: Classes): readonly (readonly string[])[] =>
  classes
    .filter((c) => c.length > 1)
    .sort((a, b) => b.length - a.length)
    .map((c) => c.map((m) => m.fault.phrase));
