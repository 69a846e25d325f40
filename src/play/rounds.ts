import type { State } from '../circuit/scene.ts';
import type { Moment } from './moment.ts';
import { quantity, type Rates, type States } from './slow.ts';

/** Rounds are looked for once nothing was touched for this long, s: shorter waits are played beat by beat. */
export const beatByBeat_s = 60;
/**
 * A leap changes no quantity by more than this share of itself or of 1, whichever is more; one that counts evenly aside.
 * What a round costs changes by no more than that meanwhile, which is how the error of a leap is reckoned.
 */
const most = 0.02;
/** What tends to a value (heat, inrush) is in its round when it comes back to this, as a share of 1. */
const swing = 1e-3;
/** Two rounds are alike when their times differ by less than this share. */
const alike = 0.02;
/** A quantity that grows by the same amount to this share counts evenly: seconds, beats. */
const even = 1e-7;
/** A leap of fewer rounds is not worth it. */
const least = 3;

type Mark = { readonly t: number; readonly states: States; readonly speed: number };
/** So many rounds on: the time that they take, the states after them, and how far these may be off. */
export type Leap = {
  readonly from: number;
  readonly times: number;
  readonly seconds: number;
  readonly states: States;
  readonly error: number;
};

/**
 * Finds what repeats in a long wait (a flasher, a breaker that cycles, a contact that opens hot), so that it can be
 * leapt over: the same switches stand as they stood one round and two rounds before, both rounds took the same time,
 * and what they cost was the same.
 */
export class Rounds {
  private readonly seen = new Map<string, Mark[]>();

  forget(): void {
    this.seen.clear();
  }

  /**
   * A moment just after something switched.
   *
   * @param rates   of its slow quantities
   * @param seconds that are left of the wait
   * @returns a leap when this moment closes the second of two equal rounds
   */
  leapFrom(moment: Moment, rates: Rates, seconds: number): Leap | undefined {
    const here: Mark = { t: moment.t, states: moment.states, speed: moment.engine.speed };
    const name = switchesOf(moment);
    const marks = [...(this.seen.get(name) ?? []), here].slice(-3);
    this.seen.set(name, marks);
    const [first, second] = marks;
    if (first === undefined || second === undefined || marks.length < 3) return undefined;
    const [before, last] = [second.t - first.t, here.t - second.t];
    if (last <= 0 || Math.abs(last - before) > alike * last || Math.abs(here.speed - second.speed) > 1) return undefined;
    let times = Math.floor(seconds / last) - 1;
    let error = 0;
    const grown: [string, string, number][] = [];
    for (const [id, state] of here.states)
      for (const key in state) {
        const value = state[key];
        if (typeof value !== 'number') continue;
        const one = value - quantity(second.states.get(id), key);
        const bend = Math.abs(one - (quantity(second.states.get(id), key) - quantity(first.states.get(id), key)));
        const size = Math.max(1, Math.abs(value));
        if (one === 0) continue;
        if (typeof rates.get(id)?.[key] === 'object') {
          if (Math.abs(one) > swing) return undefined;
          continue;
        }
        grown.push([id, key, one]);
        if (bend <= even * Math.abs(one)) continue;
        times = Math.min(times, (most * size) / Math.abs(one), (most * size) / bend);
        error = Math.max(error, (bend + most * Math.abs(one)) / size);
      }
    times = Math.floor(times);
    if (times < least) return undefined;
    const states = new Map<string, State>(here.states);
    for (const [id, key, one] of grown) states.set(id, { ...states.get(id), [key]: quantity(states.get(id), key) + times * one });
    return { from: second.t, times, seconds: times * last, states, error: error * times };
  }
}

/** Everything that is on or off, open or closed, and what is on its way. */
function switchesOf({ states, scene, pending }: Moment): string {
  const words: string[] = [scene.engine, ...pending.keys()];
  for (const [id, state] of states) for (const key in state) if (typeof state[key] !== 'number') words.push(id, key, String(state[key]));
  return words.join(' ');
}
