import { nameOfOwn } from '../circuit/ownerOf.ts';
import type { Part } from '../circuit/part.ts';
import { loadAt } from './loads.ts';
import { type OperatingPoint, voltsAt } from './operatingPoint.ts';
import { memberOf } from './reading.ts';

/** An element that a current passes: + when from its first to its second end. */
export type Passed = { readonly id: string; readonly forwards: boolean };

/** The way of a load's current, in the order in which it flows. */
export type Way = {
  /** Part terminals passed, e.g. G1.+, S1.30, S1.15, T1.15. Wire ends are left out: they are the terminals they are fastened to. */
  readonly terminals: readonly string[];
  /** Elements passed, wires included. */
  readonly elements: readonly Passed[];
};

export type CurrentPaths = { readonly feed: Way; readonly return: Way };

const nothing: Way = { terminals: [], elements: [] };

/**
 * Feed and return path of a load: from where its current leaves a supply to the load, and from the load back. At
 * every point the branch that carries the largest share is followed. Both are empty when the load carries nothing.
 *
 * A part that brings current itself (a supply, an alternator) ends a path.
 * Cost: near linear in branches.
 */
export function currentPaths(at: OperatingPoint, load: Part): CurrentPaths {
  const through = flowThrough(at, load);
  if (!through) return { feed: nothing, return: nothing };
  const feed = walk(at, load, through.enters, -1);
  const back = walk(at, load, through.leaves, 1);
  return {
    feed: {
      terminals: [...feed.terminals].reverse(),
      elements: [...feed.elements].reverse().map((e) => ({ ...e, forwards: !e.forwards })),
    },
    return: back,
  };
}

/** Least share of a load's current by which a branch is one of its ways: ground points that lie millivolts apart drive some thousandths of it through everything near (estimate). */
const leastShare = 0.02;

/**
 * Every element by which a part of a load's current comes or goes, each with its direction: not only the strongest, as
 * in `currentPaths`. Supplies end them. None when the load does not work at all.
 */
export function allWays(at: OperatingPoint, load: Part): readonly Passed[] {
  const through = loadAt(at, load.id)?.verdict === 'dead' ? undefined : flowThrough(at, load);
  if (!through) return [];
  const least = leastShare * through.ampere;
  return [...spread(at, load, through.enters, -1, least), ...spread(at, load, through.leaves, 1, least)];
}

/** What is reached from a load's terminal with the current (1) or against it (-1) by branches that carry at least so much. */
function spread(at: OperatingPoint, load: Part, start: string, sense: 1 | -1, least: number): readonly Passed[] {
  const { network, amperes } = at;
  const beside = branchesBeside(at);
  const { ends: supplies, giving } = supplyEnds(at, load, sense);
  const found: Passed[] = [];
  const reached = new Set([network.nodeOf.get(start) ?? -1]);
  for (const node of reached) {
    if (supplies.has(node)) continue;
    for (const k of beside.get(node) ?? []) {
      const b = network.branches[k]!;
      const flows = (b.from === node ? amperes[k]! : -amperes[k]!) * sense;
      if (b.part === load.id || giving.has(b.part) || flows < least) continue;
      found.push({ id: b.id, forwards: amperes[k]! > 0 });
      reached.add(b.from === node ? b.to : b.from);
    }
  }
  return found;
}

/** Where a load's current enters and leaves it, and how much it is, A > 0; undefined where there is none. */
function flowThrough(
  at: OperatingPoint,
  load: Part,
): { readonly enters: string; readonly leaves: string; readonly ampere: number } | undefined {
  const ends = load.kind.loadEnds?.(load);
  if (!ends) return undefined;
  const [first, second] = ends.map((t) => nameOfOwn(load.id, t)) as [string, string];
  const inward = intoLoad(at, load, first);
  if (inward === 0) return undefined;
  return inward > 0 ? { enters: first, leaves: second, ampere: inward } : { enters: second, leaves: first, ampere: -inward };
}

/** Sum of the load's own currents at a terminal, positive into the load. */
function intoLoad(at: OperatingPoint, load: Part, terminal: string): number {
  let sum = 0;
  const { first, count } = memberOf(at.network, load.id) ?? { first: 0, count: 0 };
  for (let k = first; k < first + count; k++) {
    const b = at.network.branches[k]!;
    if (b.fromTerminal === terminal) sum += at.amperes[k]!;
    if (b.toTerminal === terminal) sum -= at.amperes[k]!;
  }
  return sum;
}

/** Walks from a load's terminal with the current (1) or against it (-1) to a supply. */
function walk(at: OperatingPoint, load: Part, start: string, sense: 1 | -1): Way {
  const { network, amperes } = at;
  const beside = branchesBeside(at);
  const { ends: supplies, giving } = supplyEnds(at, load, sense);
  const terminals = [start];
  const elements: { id: string; forwards: boolean }[] = [];
  const passed = new Set<number>();
  let node = network.nodeOf.get(start);
  while (node !== undefined && !passed.has(node)) {
    passed.add(node);
    const supply = supplies.get(node);
    if (supply !== undefined) {
      if (terminals.at(-1) !== supply) terminals.push(supply);
      break;
    }
    let best = -1;
    let most = 0;
    for (const k of beside.get(node) ?? []) {
      const b = network.branches[k]!;
      if (b.part === load.id) continue;
      const out = (b.from === node ? amperes[k]! : -amperes[k]!) * sense;
      if (out > most) [best, most] = [k, out];
    }
    if (best < 0) break;
    const b = network.branches[best]!;
    const forwards = b.from === node;
    const [near, far] = forwards ? [b.fromTerminal, b.toTerminal] : [b.toTerminal, b.fromTerminal];
    if (giving.has(b.part)) {
      if (terminals.at(-1) !== near) terminals.push(near);
      break;
    }
    elements.push({ id: b.id, forwards });
    for (const t of [near, far]) if (!isWireEnd(at, t) && !t.includes('~') && terminals.at(-1) !== t) terminals.push(t);
    node = forwards ? b.to : b.from;
  }
  return { terminals, elements };
}

const besides = new WeakMap<OperatingPoint['network'], Map<number, number[]>>();
function branchesBeside({ network }: OperatingPoint): ReadonlyMap<number, readonly number[]> {
  const known = besides.get(network);
  if (known) return known;
  const beside = new Map<number, number[]>();
  for (const [k, b] of network.branches.entries()) {
    if (b.from === b.to) continue;
    for (const n of [b.from, b.to]) {
      const list = beside.get(n);
      if (list) list.push(k);
      else beside.set(n, [k]);
    }
  }
  besides.set(network, beside);
  return beside;
}

/** Where ways end: at parts other than the load that give current now. */
type Supplies = {
  /** Nodes at which one of them gives (a feed ends there) or takes back, each with the terminal. Of two in series one takes back where the other gives. */
  readonly ends: ReadonlyMap<number, string>;
  /** Their ids. A machine that stands still gives nothing: the charge lamp's current goes on through it. */
  readonly giving: ReadonlySet<string>;
};

function supplyEnds(at: OperatingPoint, load: Part, sense: 1 | -1): Supplies {
  const ends = new Map<number, string>();
  const giving = new Set<string>();
  for (const { part } of at.network.members) {
    const both = part.id === load.id ? undefined : part.kind.supply?.(part);
    if (!both) continue;
    const [plus, minus] = both.map((t) => nameOfOwn(part.id, t)) as [string, string];
    if (intoLoad(at, part, plus) >= 0) continue;
    const end = sense === -1 ? plus : minus;
    ends.set(at.network.nodeOf.get(end)!, end);
    giving.add(part.id);
  }
  return { ends, giving };
}

function isWireEnd({ network }: OperatingPoint, terminal: string): boolean {
  const part = network.circuit.parts.get(terminal.slice(0, terminal.lastIndexOf('.')));
  return part?.kind.isWire === true;
}

/** Volts along a way, per terminal; null where it is tied to nothing. */
export function voltsAlong(at: OperatingPoint, way: Way): readonly (number | null)[] {
  return way.terminals.map((t) => voltsAt(at, t) ?? null);
}
