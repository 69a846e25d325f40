import type { Element } from '../../src/circuit/element.ts';
import { SourceLoop } from '../../src/solve/joined.ts';
import { type LinearNetwork, linearNetwork } from '../../src/solve/linearNetwork.ts';
import { type Network, network } from '../../src/solve/network.ts';
import { conditionOf, type OperatingPoint, operatingPoint } from '../../src/solve/operatingPoint.ts';
import { diceOf } from '../fuzz/dice.ts';
import { exactVolts, toDouble } from '../solve/exact/rational.ts';
import { solvedElsewhere } from '../solve/exact/solvedElsewhere.ts';
import { type Absurd, absurd } from './absurd.ts';

export type Checked = {
  readonly sort: string;
  /** What the solver said: it settled, something chatters, two exact sources contradict each other, an ideal current has no way back. */
  readonly said: 'settled' | 'chatters' | 'source loop' | 'no way back';
  /** What is wrong; empty when all laws hold. */
  readonly wrong: readonly string[];
  readonly residual: number;
  /** Largest difference to the general-purpose solver over the largest voltage; absent where that one has too few digits of its own. */
  readonly apart?: number;
};

/** Nodes up to which a dense solver is asked too: it needs their cube. */
const denseUpTo = 60;

/** Makes, solves and checks one circuit: always the same one for a seed and a number. */
export function checked(seed: number, number: number): Checked {
  const made = absurd(diceOf(seed, number));
  let net: Network;
  try {
    net = network(made.circuit);
  } catch (e) {
    if (e instanceof SourceLoop) return { sort: made.sort, said: 'source loop', wrong: [], residual: 0 };
    throw e;
  }
  const at = operatingPoint(net, made.scene);
  if (at.residual > 1e-9 && drivesCurrent(at)) return { sort: made.sort, said: 'no way back', wrong: [], residual: 0 };
  const wrong = [...finiteness(at), ...kirchhoff(at), ...energy(at), ...laws(at), ...range(at), ...stays(made, at)];
  const elsewhere = comparison(at);
  if (elsewhere !== undefined && elsewhere > 1e-9) wrong.push(`${elsewhere} away from the general-purpose solver`);
  const said = at.chatters.length > 0 ? 'chatters' : 'settled';
  return { sort: made.sort, said, wrong, residual: at.residual, ...(elsewhere !== undefined && { apart: elsewhere }) };
}

/** A teaching source that pushes its current through whatever it meets: where that is open, there is no solution, and the residual says so. */
const drivesCurrent = (at: OperatingPoint): boolean =>
  at.network.members.some((m) => m.elements(conditionOf(at.network, m, at.scene, at.states)).some((e) => 'into' in e && e.ampere !== 0));

const largest = (list: Iterable<number>): number => {
  let most = 0;
  for (const x of list) most = Math.max(most, Math.abs(x));
  return most;
};
/** Digits that are left of a current taken from two voltages: some roundings of the largest current that a source could push. */
const rounding = 1e-14;
/** Less than an electron a second: what rounding leaves where nothing flows. */
const dust_A = 1e-18;
/** Volts over a branch, first end above the second. */
const voltsOver = (at: OperatingPoint, k: number): number => {
  const { from, to, offset } = at.network.branches[k]!;
  return at.nodeVolts[from]! - at.nodeVolts[to]! + offset;
};

function finiteness({ nodeVolts, amperes }: OperatingPoint): readonly string[] {
  return [...nodeVolts, ...amperes].every(Number.isFinite) ? [] : ['a voltage or current is no number'];
}

/** Counted anew from the branches, not taken from the solver's own residual. */
function kirchhoff(at: OperatingPoint): readonly string[] {
  const left = new Float64Array(at.nodeVolts.length);
  for (const [k, b] of at.network.branches.entries()) {
    left[b.from]! -= at.amperes[k]!;
    left[b.to]! += at.amperes[k]!;
  }
  const scale = largest(at.amperes) + rounding * largest(at.push) + dust_A;
  const miss = largest(left);
  return miss <= 1e-9 * scale || miss < dust_A * 1e-3 ? [] : [`Kirchhoff: ${miss} A left over beside ${scale} A`];
}

/** Volts times amperes of all branches sum to nothing; exact sources stand between the nodes, so they are left to Kirchhoff. */
function energy(at: OperatingPoint): readonly string[] {
  if (at.network.joints.some((j) => j.volt !== 0)) return [];
  let [sum, most] = [0, 0];
  for (const [k] of at.network.branches.entries()) {
    const watts = voltsOver(at, k) * at.amperes[k]!;
    sum += watts;
    most += Math.abs(watts);
  }
  const floor = largest(at.nodeVolts) * (1e-9 * largest(at.amperes) + rounding * largest(at.push));
  return Math.abs(sum) <= Math.max(1e-9 * most, floor) + 1e-15 ? [] : [`energy: ${sum} W of ${most} W`];
}

/** Every piece obeys its own law at the voltage over it, and what is no source only takes. */
function laws(at: OperatingPoint): readonly string[] {
  const wrong: string[] = [];
  const most = largest(at.nodeVolts);
  const scale = largest(at.amperes);
  for (const member of at.network.members) {
    const list = member.elements(conditionOf(at.network, member, at.scene, at.states));
    for (const [n, element] of list.entries()) {
      const k = at.network.branchOf.get(element.id);
      if (k === undefined) continue;
      const [volts, ampere] = [voltsOver(at, k), at.amperes[k]!];
      const expected = currentOf(element, volts);
      if (expected === undefined) continue;
      // Twelve digits of the node voltages, through the slope of the piece; 1e-9 of the current at a node.
      const slack = 1e-9 * Math.max(Math.abs(expected.ampere), scale) + 1e-11 * most * expected.siemens;
      if (Math.abs(expected.ampere - ampere) > slack)
        wrong.push(`${member.part.kind.kind} ${element.id}#${n}: ${ampere} A at ${volts} V, its law says ${expected.ampere} A`);
      if (expected.passive && volts * ampere < -(slack * Math.abs(volts) + 1e-9 * scale * most))
        wrong.push(`${member.part.kind.kind} ${element.id} gives ${-volts * ampere} W`);
    }
  }
  return wrong.slice(0, 3);
}

/** First end of a branch is `from`, or `plus` of a source, whose current is counted out of plus. */
function currentOf(
  element: Element,
  volts: number,
): { readonly ampere: number; readonly siemens: number; readonly passive: boolean } | undefined {
  if ('law' in element) return { ...element.law(volts), passive: element.law(0).ampere === 0 };
  if ('into' in element || 'plus' in element) return undefined;
  if (element.ohm === 0) return undefined;
  const siemens = element.ohm === Number.POSITIVE_INFINITY ? 0 : 1 / element.ohm;
  return { ampere: volts * siemens, siemens, passive: true };
}

/** No node beyond what all sources together reach; only where nothing pushes an ideal current. */
function range(at: OperatingPoint): readonly string[] {
  let reach = 0;
  for (const member of at.network.members)
    for (const e of member.elements(conditionOf(at.network, member, at.scene, at.states))) {
      if ('into' in e && e.ampere !== 0) return [];
      if ('plus' in e) reach += Math.abs(e.volt);
      // A piece that gives current by itself: a generator, whose law crosses zero somewhere.
      if ('law' in e && e.law(0).ampere !== 0) reach += 100;
    }
  const most = largest(at.nodeVolts);
  return most <= reach * (1 + 1e-9) + 1e-9 ? [] : [`a node stands at ${most} V where the sources reach ${reach} V`];
}

/** Asked again from where it settled, it stays. */
function stays({ scene }: Absurd, at: OperatingPoint): readonly string[] {
  if (at.chatters.length > 0) return [];
  const again = operatingPoint(at.network, scene, at.states);
  if (again.chatters.length > 0) return [`settled, and chatters when asked again: ${again.chatters.join(', ')}`];
  const moved = [...again.states].filter(([part, state]) => JSON.stringify(state) !== JSON.stringify(at.states.get(part)));
  return moved.length === 0 ? [] : [`settled, and moved on when asked again: ${moved[0]![0]}`];
}

function comparison(at: OperatingPoint): number | undefined {
  const net = linearNetwork(at);
  if (net.nodes.length > denseUpTo || net.nodes.length < 2) return undefined;
  let other: ReturnType<typeof solvedElsewhere>;
  try {
    other = solvedElsewhere(net);
  } catch {
    return undefined; // singular to its digits
  }
  if (!other.trusted) return undefined;
  const far = farthest(net, other.volts);
  // Where the two differ, arithmetic without rounding tells which of them has the digits.
  return far <= 1e-9 || net.sources.some((source) => source.ohm === 0) ? far : farthest(net, exactly(net));
}

/** Largest difference over the largest voltage. */
function farthest(net: LinearNetwork, volts: ReadonlyMap<string, number>): number {
  const most = largest(Object.values(net.volts)) || 1;
  return largest(Object.entries(net.volts).map(([node, v]) => volts.get(node)! - v)) / most;
}

/** Of networks without exact sources. */
function exactly({ reference, nodes, resistances, sources, currents }: LinearNetwork): ReadonlyMap<string, number> {
  const names = [reference, ...nodes.filter((n) => n !== reference)];
  const of = new Map(names.map((n, k) => [n, k] as const));
  const feeds = names.map(() => 0);
  const feed = (node: string, ampere: number) => {
    feeds[of.get(node)!]! += ampere;
  };
  for (const { into, outOf, ampere } of currents) {
    feed(into, ampere);
    feed(outOf, -ampere);
  }
  for (const { plus, minus, volt, ohm } of sources) {
    feed(plus, volt / ohm);
    feed(minus, -volt / ohm);
  }
  const branches = [...resistances, ...sources.map((s) => ({ from: s.plus, to: s.minus, ohm: s.ohm }))];
  const volts = exactVolts(
    names.length,
    branches.map((b) => ({ from: of.get(b.from)!, to: of.get(b.to)!, ohm: b.ohm })),
    feeds,
  );
  return new Map(names.map((n, k) => [n, toDouble(volts[k]!)] as const));
}
