import { remembered } from '../circuit/remembered.ts';
import type { Scene, State } from '../circuit/scene.ts';
import { branchValues } from './branchValues.ts';
import { type Instant, solveInstant } from './instant.ts';
import type { Network } from './network.ts';
import type { OperatingPoint, States } from './operatingPoint.ts';
import { sameState } from './partValues.ts';
import { conditionOf, readingOf } from './reading.ts';

/** What the parts of a circuit feel at an instant. */
export type Felt = Pick<Instant, 'volts' | 'floats' | 'amperes'> & Pick<OperatingPoint, 'ampereIn'>;

/** Where the states of a circuit came to rest, or what they swing between. */
export type Settled<I extends Felt = Instant> = {
  readonly instant: I;
  readonly states: States;
  /** Parts whose state never comes to rest, in file order. */
  readonly chatters: readonly string[];
  /** When something chatters: the states that it swings to, the furthest of them. */
  readonly alternate?: States;
};

/** Rounds before states that were never met twice are called swinging. Each part of a chain of relays needs a few. */
const mostRounds = (parts: number) => 64 + 4 * parts;

/**
 * Finds states in which every part wants to stay: solve, ask every part where it wants to be, repeat.
 *
 * First all parts change together. Should that lead back to where it was before, it may only be that two parts took
 * turns, which real ones never do to the end: so it is tried again from the start with one change at a time, each
 * part having its turn. What then still comes back to the same states and the same turn would do so for ever: the
 * parts that change on the way round are the ones that chatter.
 *
 * @param start  states to begin in
 * @param solve  how one instant is solved; whoever knows a quicker way to the same numbers passes it
 * @param asks   whether a member need be asked at all; whoever knows which must be at rest passes it
 */
export function settled(network: Network, scene: Scene, start: States): Settled;
export function settled<I extends Felt>(
  network: Network,
  scene: Scene,
  start: States,
  solve: (states: States) => I,
  asks: Asks,
): Settled<I>;
export function settled(
  network: Network,
  scene: Scene,
  start: States,
  solve: (states: States) => Felt = (states) => solveInstant(network, branchValues(network, scene, states)),
  asks: Asks = () => true,
): Settled<Felt> {
  // What a fault adds to the wiring never settles: the same members do in every network of one layout.
  const parts = remembered(settling, network.nodeOf, () =>
    [...network.members.entries()].flatMap(([place, { part }]) => (part.kind.settle ? [place] : [])),
  );
  const together = pursued({ network, scene, parts, solve, asks }, start, false);
  return together.chatters.length === 0 ? together : pursued({ network, scene, parts, solve, asks }, start, true);
}

const settling = new WeakMap<Network['nodeOf'], Pursuit['parts']>();

type Asks = (member: number, instant: Felt, states: States) => boolean;
type Pursuit = {
  readonly network: Network;
  readonly scene: Scene;
  /** Places of the members that settle. */
  readonly parts: readonly number[];
  readonly solve: (states: States) => Felt;
  readonly asks: Asks;
};

type Turn = { readonly states: States; readonly turn: number };

function pursued(pursuit: Pursuit, start: States, oneAtATime: boolean): Settled<Felt> {
  const { network, parts, solve } = pursuit;
  let trail: Turn[] = [];
  let opened = 0;
  let now: Turn = { states: start, turn: 0 };
  let instant = solve(start);
  for (;;) {
    const { quick, slow } = wants(pursuit, now, instant, oneAtATime);
    const next = quick ?? slow;
    if (next === undefined) return { instant, states: now.states, chatters: [] };
    const round = trail.findIndex((t) => t.turn === now.turn && sameStates(t.states, now.states));
    if (round >= 0 || trail.length >= mostRounds(parts.length)) {
      if (!oneAtATime || slow === undefined || opened++ >= parts.length)
        return swinging(network, instant, now.states, trail.slice(round >= 0 ? round : -8));
      trail = [];
      now = slow;
    } else {
      trail.push(now);
      now = next;
    }
    instant = solve(now.states);
  }
}

function swinging(network: Network, instant: Felt, states: States, swing: readonly Turn[]): Settled<Felt> {
  const ids = network.members.map((m) => m.part.id);
  const changed = swing.map((turn) => ids.filter((id) => !sameState(turn.states.get(id), states.get(id))));
  const most = Math.max(...changed.map((list) => list.length));
  const chatters = ids.filter((id) => changed.some((list) => list.includes(id)));
  return { instant, states, chatters, alternate: swing[changed.findIndex((list) => list.length === most)]!.states };
}

/**
 * The states that the parts want after this instant. What is slow (fuses) waits until nothing quick wants to change,
 * or what is quick never stops; then the one that opens soonest goes alone, for it may save the others.
 */
function wants(
  { network, scene, parts, asks }: Pursuit,
  { states, turn }: Turn,
  instant: Felt,
  oneAtATime: boolean,
): { readonly quick?: Turn; readonly slow?: Turn } {
  const at = {
    network,
    nodeVolts: instant.volts,
    floats: instant.floats,
    ...(instant.ampereIn && { ampereIn: instant.ampereIn }),
    get amperes() {
      return instant.amperes;
    },
  };
  let quick: Map<string, State> | undefined;
  let afterwards = 0;
  let soonest: { readonly id: string; readonly next: State; readonly seconds: number } | undefined;
  for (let k = 0; k < parts.length; k++) {
    const index = (turn + k) % parts.length;
    const place = parts[index]!;
    if (!asks(place, instant, states)) continue;
    const member = network.members[place]!;
    const { part } = member;
    const condition = conditionOf(network, member, scene, states);
    const reading = readingOf(at, part.id);
    const next = part.kind.settle!(part, condition, reading);
    if (sameState(next, condition.state)) continue;
    if (part.kind.opensIn) {
      const seconds = part.kind.opensIn(part, condition, reading);
      if (soonest === undefined || seconds < soonest.seconds) soonest = { id: part.id, next, seconds };
    } else if (!oneAtATime || quick === undefined) {
      quick ??= new Map(states);
      quick.set(part.id, next);
      afterwards = oneAtATime ? (index + 1) % parts.length : 0;
    }
  }
  return {
    ...(quick && { quick: { states: quick, turn: afterwards } }),
    ...(soonest && { slow: { states: new Map(states).set(soonest.id, soonest.next), turn } }),
  };
}

function sameStates(a: States, b: States): boolean {
  for (const [id, state] of a) if (!sameState(state, b.get(id))) return false;
  return a.size === b.size;
}
