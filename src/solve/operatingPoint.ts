import type { Element, Law, Reading } from '../circuit/element.ts';
import type { Condition, Scene, State } from '../circuit/scene.ts';
import { atRest, type Member, type Network } from './network.ts';
import { eliminate, markFloating, nodeVoltages } from './starMesh.ts';

export type States = ReadonlyMap<string, State>;

/** A circuit at one instant, solved. */
export type OperatingPoint = {
  readonly network: Network;
  readonly scene: Scene;
  /** Volts per node against the reference. */
  readonly nodeVolts: Float64Array;
  /** 1 where a node has no path to the reference. */
  readonly floats: Uint8Array;
  /** Amperes per branch, first end to second. */
  readonly amperes: Float64Array;
  /** Conductance of each branch at the solution (slope for laws), S; 0 = open. For updates of low rank. */
  readonly siemens: Float64Array;
  /** Current pushed by each branch's source part at the solution, A: amperes = siemens·volts + push. */
  readonly push: Float64Array;
  readonly states: States;
  /** Parts that never settle here, in file order; empty nearly always. */
  readonly chatters: readonly string[];
  /** When something chatters: the other states it swings to. */
  readonly alternate?: States;
  /** Largest Kirchhoff mismatch of any node over the largest current; ≤ 1e-9 when solved. */
  readonly residual: number;
  readonly iterations: number;
};

/** How far Newton may stop short: mismatch of a law's current over the largest current in the circuit. */
const enough = 1e-11;
const mostIterations = 60;
/** Rounds of discrete changes before a part that still changes is called chattering. Each part of a chain needs one. */
const mostRounds = 64;

/**
 * Solves a scene, with all relays, fuses and other states where they would settle.
 *
 * States are found by fixed point: solve, ask every part where it wants to be, repeat. A round that comes back to an
 * earlier set of states is tried again with one change at a time; if it still comes back, the parts that change
 * between the two are reported as chattering, and the last solution stands.
 *
 * @param states  where the parts begin (hysteresis); what is missing begins as never switched on
 * @param settles false holds all states as given: one instant of a play
 */
export function operatingPoint(network: Network, scene: Scene, states?: States, settles = true): OperatingPoint {
  let held = startStates(network, states);
  let instant = solveInstant(network, scene, held);
  if (!settles) return point(network, scene, instant, held, []);
  const seen = new Map<string, number>();
  const trail: States[] = [];
  let oneAtATime = false;
  for (let round = 0; round < mostRounds * 2; round++) {
    const wanted = wantedStates(network, scene, held, instant, oneAtATime);
    if (wanted === held) return point(network, scene, instant, held, []);
    const key = JSON.stringify([...held]);
    const before = seen.get(key);
    if (before !== undefined || round >= mostRounds) {
      if (oneAtATime || round >= mostRounds) return swinging(network, scene, instant, held, trail.slice(before ?? trail.length - 2));
      oneAtATime = true;
      seen.clear();
      trail.length = 0;
      held = startStates(network, states);
      instant = solveInstant(network, scene, held);
      continue;
    }
    seen.set(key, trail.length);
    trail.push(held);
    held = wanted;
    instant = solveInstant(network, scene, held, instant);
  }
  return swinging(network, scene, instant, held, trail);
}

function swinging(network: Network, scene: Scene, instant: Instant, held: States, trail: readonly States[]): OperatingPoint {
  const alternate = trail.at(-1);
  return { ...point(network, scene, instant, held, changing(network, trail, held)), ...(alternate && { alternate }) };
}

/** Volts of a terminal against the reference; null when it is tied to nothing, undefined when the circuit has no such terminal. */
export function voltsAt(at: OperatingPoint, terminal: string): number | null | undefined {
  const node = at.network.nodeOf.get(terminal);
  if (node === undefined) return undefined;
  return at.floats[node] === 1 ? null : at.nodeVolts[node]! + (at.network.offsetOf.get(terminal) ?? 0);
}

/** Amperes through an element, first end to second; 0 for one that the circuit does not have. */
export function amperesThrough(at: OperatingPoint, element: string): number {
  const k = at.network.branchOf.get(element);
  return k === undefined ? 0 : at.amperes[k]!;
}

/** Amperes that flow from the wiring into a terminal of a part: the sum over the part's elements there. */
export function amperesInto(at: OperatingPoint, terminal: string): number {
  let sum = 0;
  for (const [k, b] of at.network.branches.entries()) {
    if (b.fromTerminal === terminal) sum += at.amperes[k]!;
    if (b.toTerminal === terminal) sum -= at.amperes[k]!;
  }
  return sum;
}

export function conditionOf(network: Network, member: Member, scene: Scene, states: States): Condition {
  const rest = atRest(member.part, network.circuit.ambient);
  const { id } = member.part;
  return {
    key: scene.key,
    setting: scene.hand[id] ?? rest.setting,
    engine: scene.engine,
    ambient: rest.ambient,
    state: states.get(id) ?? rest.state,
  };
}

export function readingOf(at: Pick<OperatingPoint, 'network' | 'nodeVolts' | 'floats' | 'amperes'>, part: string): Reading {
  const { network } = at;
  const wide = (t: string) => (t === 'ground' || t === 'block' ? t : `${part}.${t}`);
  const volts = (t: string): number | undefined => {
    const node = network.nodeOf.get(wide(t));
    return node === undefined || at.floats[node] === 1 ? undefined : at.nodeVolts[node]! + (network.offsetOf.get(wide(t)) ?? 0);
  };
  return {
    across: (first, second) => {
      const [a, b] = [volts(first), volts(second)];
      return a === undefined || b === undefined ? 0 : a - b;
    },
    amperes: (element) => {
      const k = network.branchOf.get(element === '' ? part : `${part}.${element}`);
      return k === undefined ? 0 : at.amperes[k]!;
    },
  };
}

function startStates(network: Network, given: States | undefined): States {
  const states = new Map<string, State>();
  for (const { part } of network.members) {
    const state = given?.get(part.id) ?? part.kind.initial?.(part);
    if (state !== undefined) states.set(part.id, state);
  }
  return states;
}

/** The states that the parts want after this instant; the very same map when nothing changes. */
function wantedStates(network: Network, scene: Scene, held: States, instant: Instant, oneAtATime: boolean): States {
  let wanted: Map<string, State> | undefined;
  const at = { network, nodeVolts: instant.volts, floats: instant.floats, amperes: instant.amperes };
  for (const member of network.members) {
    const { part } = member;
    if (!part.kind.settle) continue;
    const condition = conditionOf(network, member, scene, held);
    const next = part.kind.settle(part, condition, readingOf(at, part.id));
    if (next === condition.state) continue;
    wanted ??= new Map(held);
    wanted.set(part.id, next);
    if (oneAtATime) break;
  }
  return wanted ?? held;
}

function changing(network: Network, trail: readonly States[], last: States): readonly string[] {
  const lively = (id: string) => trail.some((states) => JSON.stringify(states.get(id)) !== JSON.stringify(last.get(id)));
  return network.members.map((m) => m.part.id).filter((id) => last.has(id) && lively(id));
}

type Instant = {
  readonly volts: Float64Array;
  readonly floats: Uint8Array;
  readonly amperes: Float64Array;
  readonly siemens: Float64Array;
  readonly push: Float64Array;
  readonly residual: number;
  readonly iterations: number;
};

/**
 * Node voltages for fixed states. Laws are replaced by their slope and the current that is left over (Newton); since
 * every law rises, the solution is the lowest point of a convex function (the co-content), and a step that climbs is
 * cut back along itself until it does not: so it always arrives.
 *
 * Stops when no law's current is further from its straight line than `enough` of the largest current.
 */
function solveInstant(network: Network, scene: Scene, states: States, from?: Instant): Instant {
  const { branches, pattern } = network;
  const m = branches.length;
  const siemens = new Float64Array(m);
  const push = new Float64Array(m);
  const laws: { k: number; law: Law; volt: number }[] = [];
  for (const member of network.members) {
    const list = elementsAt(network, member, scene, states);
    for (let e = 0; e < member.count; e++) fill(member.first + e, list[e]!);
  }
  function fill(k: number, e: Element): void {
    if ('law' in e) {
      const { offset, from: a, to: b } = branches[k]!;
      laws.push({ k, law: e.law, volt: from ? from.volts[a]! - from.volts[b]! + offset : 0 });
    } else if ('into' in e) push[k] = e.ampere;
    else {
      siemens[k] = e.ohm === 0 ? 0 : 1 / e.ohm; // a joint of 0 Ω is merged into its node
      if ('plus' in e && e.ohm !== 0) push[k] = e.volt / e.ohm;
    }
  }
  const volts = new Float64Array(pattern.nodes);
  const floats = new Uint8Array(pattern.nodes);
  const feeds = new Float64Array(pattern.nodes);
  const amperes = new Float64Array(m);
  let iterations = 0;
  let residual = 0;
  for (; iterations < mostIterations; ) {
    for (const l of laws) {
      const { ampere, siemens: slope } = l.law(l.volt);
      siemens[l.k] = slope;
      push[l.k] = ampere - slope * l.volt;
    }
    feeds.fill(0);
    for (let k = 0; k < m; k++) {
      const flow = push[k]! + siemens[k]! * branches[k]!.offset;
      if (flow === 0) continue;
      feeds[branches[k]!.from]! -= flow;
      feeds[branches[k]!.to]! += flow;
    }
    const space = eliminate(pattern, siemens);
    markFloating(space, floats);
    nodeVoltages(space, feeds, volts);
    iterations++;
    let largest = 0;
    for (let k = 0; k < m; k++) {
      const b = branches[k]!;
      const flow = siemens[k]! === 0 ? push[k]! : siemens[k]! * (volts[b.from]! - volts[b.to]! + b.offset) + push[k]!;
      amperes[k] = flow;
      if (Math.abs(flow) > largest) largest = Math.abs(flow);
    }
    let worst = 0;
    let climb = 0;
    const steps: { l: (typeof laws)[number]; step: number; miss: number }[] = [];
    for (const l of laws) {
      const b = branches[l.k]!;
      const now = volts[b.from]! - volts[b.to]! + b.offset;
      const miss = l.law(now).ampere - amperes[l.k]!;
      const step = now - l.volt;
      worst = Math.max(worst, Math.abs(miss));
      climb += miss * step;
      steps.push({ l, step, miss });
    }
    residual = largest === 0 ? 0 : worst / largest;
    if (worst <= enough * largest || worst < 1e-15) break;
    const part = climb > 0 && iterations > 2 ? shorterStep(steps) : 1;
    for (const { l, step } of steps) l.volt += part * step;
  }
  return { volts, floats, amperes, siemens, push, residual, iterations };
}

/** Share of a Newton step after which the laws alone stop climbing, by halving; the linear branches only help. At least 1/16, so that it moves. */
function shorterStep(steps: readonly { l: { law: Law; volt: number }; step: number; miss: number }[]): number {
  let share = 1;
  for (let halving = 0; halving < 4; halving++) {
    let climb = 0;
    for (const { l, step } of steps) {
      const straight = l.law(l.volt);
      const at = l.law(l.volt + share * step).ampere;
      climb += (at - straight.ampere - share * straight.siemens * step) * step;
    }
    const descent = steps.reduce((sum, { l, step }) => sum + l.law(l.volt).siemens * step * step, 0) * (1 - share);
    if (climb <= descent) break;
    share /= 2;
  }
  return share;
}

const fixedLists = new WeakMap<Member, readonly Element[]>();
function elementsAt(network: Network, member: Member, scene: Scene, states: States): readonly Element[] {
  const known = member.varies ? undefined : fixedLists.get(member);
  if (known) return known;
  const list = member.elements(conditionOf(network, member, scene, states));
  if (!member.varies) fixedLists.set(member, list);
  return list;
}

/** Adds the largest Kirchhoff mismatch of any node, from the currents as they are reported. */
function point(network: Network, scene: Scene, instant: Instant, states: States, chatters: readonly string[]): OperatingPoint {
  const { volts: nodeVolts, floats, amperes, siemens, push, iterations } = instant;
  const sums = new Float64Array(network.pattern.nodes);
  let largest = 0;
  for (const [k, b] of network.branches.entries()) {
    sums[b.from]! -= amperes[k]!;
    sums[b.to]! += amperes[k]!;
    largest = Math.max(largest, Math.abs(amperes[k]!));
  }
  let mismatch = 0;
  for (let n = 1; n < sums.length; n++) if (floats[n] === 0) mismatch = Math.max(mismatch, Math.abs(sums[n]!));
  const residual = largest === 0 ? 0 : Math.max(mismatch / largest, instant.residual);
  return { network, scene, nodeVolts, floats, amperes, siemens, push, states, chatters, residual, iterations };
}
