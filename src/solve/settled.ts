import type { Scene, State } from '../circuit/scene.ts';
import { branchValues } from './branchValues.ts';
import { type Instant, solveInstant } from './instant.ts';
import type { Member, Network } from './network.ts';
import type { States } from './operatingPoint.ts';
import { sameState } from './partValues.ts';
import { conditionOf, readingOf } from './reading.ts';

/** Where the states of a circuit came to rest, or what they swing between. */
export type Settled = {
  readonly instant: Instant;
  readonly states: States;
  /** Parts whose state never comes to rest, in file order. */
  readonly chatters: readonly string[];
  /** When something chatters: the states half a swing away. */
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
 */
export function settled(network: Network, scene: Scene, start: States): Settled {
  const together = pursued(network, scene, start, false);
  return together.chatters.length === 0 ? together : pursued(network, scene, start, true);
}

type Turn = { readonly states: States; readonly turn: number };

function pursued(network: Network, scene: Scene, start: States, oneAtATime: boolean): Settled {
  const parts = network.members.filter((m) => m.part.kind.settle !== undefined);
  const trail: Turn[] = [];
  let now: Turn = { states: start, turn: 0 };
  let instant = solveInstant(network, branchValues(network, scene, start));
  for (;;) {
    const wanted = wants(network, parts, scene, now, instant, oneAtATime);
    if (wanted === undefined) return { instant, states: now.states, chatters: [] };
    trail.push(now);
    now = wanted;
    instant = solveInstant(network, branchValues(network, scene, now.states), instant.volts);
    const round = trail.findIndex((t) => t.turn === now.turn && sameStates(t.states, now.states));
    if (round < 0 && trail.length < mostRounds(parts.length)) continue;
    const swing = trail.slice(round < 0 ? -8 : round).map((t) => t.states);
    const isLively = (id: string) => swing.some((states) => !sameState(states.get(id), now.states.get(id)));
    const chatters = network.members.map((m) => m.part.id).filter(isLively);
    return { instant, states: now.states, chatters, alternate: swing[swing.length >> 1]! };
  }
}

/** The states that the parts want after this instant; undefined when all want to stay. */
function wants(
  network: Network,
  parts: readonly Member[],
  scene: Scene,
  { states, turn }: Turn,
  instant: Instant,
  oneAtATime: boolean,
): Turn | undefined {
  const at = { network, nodeVolts: instant.volts, floats: instant.floats, amperes: instant.amperes };
  let wanted: Map<string, State> | undefined;
  for (let k = 0; k < parts.length; k++) {
    const index = (turn + k) % parts.length;
    const member = parts[index]!;
    const { part } = member;
    const condition = conditionOf(network, member, scene, states);
    const next = part.kind.settle!(part, condition, readingOf(at, part.id));
    if (next === condition.state || sameState(next, condition.state)) continue;
    wanted ??= new Map(states);
    wanted.set(part.id, next);
    if (oneAtATime) return { states: wanted, turn: (index + 1) % parts.length };
  }
  return wanted && { states: wanted, turn: 0 };
}

function sameStates(a: States, b: States): boolean {
  for (const [id, state] of a) if (!sameState(state, b.get(id))) return false;
  return a.size === b.size;
}
