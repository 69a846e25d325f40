import type { PartKind } from '../circuit/part.ts';
import { remembered } from '../circuit/remembered.ts';
import type { Scene, State } from '../circuit/scene.ts';
import type { Member, Network } from '../solve/network.ts';
import { conditionOf, type OperatingPoint, readingOf } from '../solve/operatingPoint.ts';
import { memberOf } from '../solve/reading.ts';
import { quantity, type Rates, type States, sameSwitches, stateAfter } from './slow.ts';

/** Parts that want another state at an instant: part -> that state. */
export type Wishes = ReadonlyMap<string, State>;

type Lively = { readonly settling: readonly Member[]; readonly timed: readonly Member[] };
const lively = new WeakMap<readonly Member[], Lively>();
const livelyIn = ({ members }: Network): Lively =>
  remembered(lively, members, () => ({
    settling: members.filter((m) => m.part.kind.settle !== undefined),
    timed: members.filter((m) => m.part.kind.timing?.rates !== undefined),
  }));

/** Which parts want another state, by the volts of this instant. */
export function wishesAt(at: OperatingPoint): Wishes {
  const found = new Map<string, State>();
  for (const member of livelyIn(at.network).settling) {
    const { part } = member;
    const condition = conditionOf(at.network, member, at.scene, at.states);
    const to = part.kind.settle!(part, condition, readingOf(at, part.id));
    if (to !== condition.state) found.set(part.id, to);
  }
  return found;
}

/** Where the slow quantities are going at this instant. */
export function ratesAt(at: OperatingPoint): Rates {
  const found = new Map<string, NonNullable<ReturnType<Rates['get']>>>();
  for (const member of livelyIn(at.network).timed) {
    const { part } = member;
    const condition = conditionOf(at.network, member, at.scene, at.states);
    const own = ratesOf(part.kind)(part, condition, readingOf(at, part.id));
    for (const name in own)
      if (own[name] !== 0) {
        found.set(part.id, own);
        break;
      }
  }
  return found;
}

const ratesOf = (kind: PartKind) => kind.timing!.rates!;

/**
 * States as a play begins: with the slow quantities that a part says to begin with, and what tends to some value as
 * if it had done so for long: filaments cold, motors standing. Other quantities begin at 0.
 */
export function withQuantities(at: OperatingPoint): States {
  const states = new Map(at.states);
  for (const member of livelyIn(at.network).timed) {
    const { part } = member;
    const condition = conditionOf(at.network, member, at.scene, at.states);
    const state: Record<string, number | boolean | string> = { ...part.kind.timing?.slow, ...condition.state };
    for (const [name, rate] of Object.entries(ratesOf(part.kind)(part, { ...condition, state }, readingOf(at, part.id))))
      state[name] = typeof rate === 'number' ? quantity(state, name) : rate.to;
    states.set(part.id, state);
  }
  for (const { part } of livelyIn(at.network).settling)
    if (part.kind.timing?.slow) states.set(part.id, { ...part.kind.timing.slow, ...states.get(part.id) });
  return states;
}

/** How long a part takes over the change from one state to the other, s. */
export function delayOf({ network }: OperatingPoint, id: string, from: State, to: State): number {
  const part = memberOf(network, id)?.part;
  return part?.kind.timing?.delay?.(part, from, to) ?? 0;
}

/** The first threshold that slow quantities pass by themselves. */
export type Crossing = { readonly seconds: number; readonly parts: ReadonlySet<string> };

/**
 * The earliest time within `most` seconds at which a part wants another state because a slow quantity of its own has
 * passed a threshold, the volts being those of now; by halving, to a millionth of the time. No solve.
 */
export function crossing(at: OperatingPoint, wishes: Wishes, rates: Rates, most: number): Crossing {
  let seconds = most;
  let parts = new Set<string>();
  for (const member of livelyIn(at.network).timed) {
    const { part } = member;
    const own = rates.get(part.id);
    if (own === undefined || part.kind.settle === undefined) continue;
    const condition = conditionOf(at.network, member, at.scene, at.states);
    const read = readingOf(at, part.id);
    const now = wishes.get(part.id) ?? condition.state;
    const differs = (s: number) =>
      !sameSwitches(part.kind.settle!(part, { ...condition, state: stateAfter(condition.state, own, s) }, read), now);
    if (!differs(seconds)) continue;
    let [low, high] = [0, seconds];
    for (let k = 0; k < 60 && high - low > 1e-6 * Math.max(1e-3, high); k++) {
      const middle = (low + high) / 2;
      if (differs(middle)) high = middle;
      else low = middle;
    }
    if (high < seconds * (1 - 1e-6)) parts = new Set();
    seconds = high;
    parts.add(part.id);
  }
  return { seconds, parts };
}

/** True when a part, but for those left aside, wants something else at the far end of a step than at its near end. */
export function turned(near: Wishes, far: Wishes, nearStates: States, farStates: States, aside: ReadonlySet<string>): boolean {
  for (const id of new Set([...near.keys(), ...far.keys()])) {
    if (aside.has(id)) continue;
    const before = near.get(id) ?? nearStates.get(id);
    const after = far.get(id) ?? farStates.get(id);
    if (before && after && !sameSwitches(before, after)) return true;
  }
  return false;
}

/** The scene with what a play decides by itself. */
export const withEngine = (scene: Scene, engine: Scene['engine']): Scene => (scene.engine === engine ? scene : { ...scene, engine });
