import { remembered } from '../circuit/remembered.ts';
import type { Scene, State } from '../circuit/scene.ts';
import { branchValues } from './branchValues.ts';
import { type Instant, solveInstant } from './instant.ts';
import { atRest, type Network } from './network.ts';
import { settled } from './settled.ts';

export { conditionOf, readingOf } from './reading.ts';

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
  /** The same for one branch, where all of them have not been worked out. */
  readonly ampereIn?: (branch: number) => number;
  /** Conductance of each branch at the solution (slope for laws), S; 0 = open. For updates of low rank. */
  readonly siemens: Float64Array;
  /** Current pushed by each branch's source part at the solution, A: amperes = siemens·volts + push. */
  readonly push: Float64Array;
  readonly states: States;
  /** Parts that never settle here, in file order; empty nearly always. */
  readonly chatters: readonly string[];
  /** When something chatters: the states that it swings to, the furthest of them. */
  readonly alternate?: States;
  /** Largest Kirchhoff mismatch of any node, or of a law, over the largest current; ≤ 1e-9 when solved, 1 where an ideal current has no way back. */
  readonly residual: number;
  readonly iterations: number;
};

/**
 * Solves a scene, with all relays, fuses and other states where they would settle. A part that never settles is named
 * in `chatters`; the solution is then that of one of the states it swings between.
 *
 * @param states  where the parts begin (hysteresis); what is missing begins as never switched on
 * @param settles false holds all states as given: one instant of a play
 */
export function operatingPoint(network: Network, scene: Scene, states?: States, settles = true): OperatingPoint {
  const start = startStates(network, states);
  if (!settles) return point(network, scene, solveInstant(network, branchValues(network, scene, start)), start, []);
  const { instant, states: end, chatters, alternate } = settled(network, scene, start);
  const at = point(network, scene, instant, end, chatters);
  return alternate ? { ...at, alternate } : at;
}

function point(network: Network, scene: Scene, instant: Instant, states: States, chatters: readonly string[]): OperatingPoint {
  const { volts: nodeVolts, ...solved } = instant;
  return { network, scene, nodeVolts, ...solved, states, chatters };
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

function startStates(network: Network, given: States | undefined): States {
  return given === undefined ? remembered(restStates, network, () => statesFrom(network, undefined)) : statesFrom(network, given);
}

const restStates = new WeakMap<Network, States>();

function statesFrom(network: Network, given: States | undefined): States {
  const states = new Map<string, State>();
  for (const { part } of network.members) {
    const state = given?.get(part.id) ?? (part.kind.initial ? atRest(part, network.circuit.ambient).state : undefined);
    if (state !== undefined) states.set(part.id, state);
  }
  return states;
}
