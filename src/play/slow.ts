import type { Rate } from '../circuit/part.ts';
import type { State } from '../circuit/scene.ts';

/** Where the slow quantities of every part are going: part -> quantity -> rate. Those of rate 0 are left out. */
export type Rates = ReadonlyMap<string, Readonly<Record<string, Rate>>>;
export type States = ReadonlyMap<string, State>;

/** Quantities further than this from where they are going are still under way. */
const underWay = 0.25;

/** The shortest time constant of a quantity that is still under way: what follows it comes in steps of about this, s. */
export function quickest(rates: Rates, states: States): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [id, own] of rates)
    for (const name in own) {
      const rate = own[name]!;
      if (typeof rate !== 'number' && Math.abs(quantity(states.get(id), name) - rate.to) > underWay) least = Math.min(least, rate.tau);
    }
  return least;
}

/** A quantity some seconds later, in closed form while its rate holds. */
export function later(value: number, rate: Rate, seconds: number): number {
  if (typeof rate === 'number') return value + rate * seconds;
  return rate.to + (value - rate.to) * Math.exp(-seconds / rate.tau);
}

/** Nearer than this to where it is going, a quantity counts as there. */
const arrived = 1e-4;

/** True for a rate that still moves its quantity. */
export function moves(value: number, rate: Rate): boolean {
  return typeof rate === 'number' ? rate !== 0 : Math.abs(value - rate.to) > arrived;
}

export function quantity(state: State | undefined, name: string): number {
  const value = state?.[name];
  return typeof value === 'number' ? value : 0;
}

/** One part's state some seconds later; the same state when nothing moves. */
export function stateAfter(state: State, own: Readonly<Record<string, Rate>>, seconds: number): State {
  let after: Record<string, number | boolean | string> | undefined;
  for (const name in own) {
    const value = quantity(state, name);
    if (!moves(value, own[name]!)) continue;
    after ??= { ...state };
    after[name] = later(value, own[name]!, seconds);
  }
  return after ?? state;
}

/** All states some seconds later, while the rates hold. */
export function statesAfter(states: States, rates: Rates, seconds: number): States {
  let after: Map<string, State> | undefined;
  for (const [id, own] of rates) {
    const state = states.get(id) ?? {};
    const moved = stateAfter(state, own, seconds);
    if (moved === state) continue;
    after ??= new Map(states);
    after.set(id, moved);
  }
  return after ?? states;
}

/** States after a step whose rates changed on the way, and how far the change matters. */
export type Corrected = {
  readonly states: States;
  /** Largest correction of any quantity, as a share of the quantity or of 1, whichever is more. */
  readonly error: number;
};

/**
 * The step with the mean of the rates at its two ends (Heun's rule, of second order). Its correction against the
 * first step (Euler's) bounds the error of that step.
 *
 * @param ahead  the states with the first rates alone
 */
export function corrected(states: States, ahead: States, first: Rates, last: Rates, seconds: number): Corrected {
  let error = 0;
  const after = new Map(ahead);
  for (const id of new Set([...first.keys(), ...last.keys()])) {
    const [own, end] = [first.get(id), last.get(id)];
    const before = states.get(id) ?? {};
    let changed: Record<string, number | boolean | string> | undefined;
    for (const name in { ...own, ...end }) {
      const from = quantity(before, name);
      const [one, other] = [own?.[name] ?? 0, end?.[name] ?? 0];
      if (!moves(from, one) && !moves(from, other)) continue;
      const [a, b] = [later(from, one, seconds), later(from, other, seconds)];
      if (a === b) continue;
      changed ??= { ...ahead.get(id) };
      changed[name] = (a + b) / 2;
      error = Math.max(error, Math.abs(a - b) / 2 / Math.max(1, Math.abs(from)));
    }
    if (changed) after.set(id, changed);
  }
  return { states: error === 0 ? ahead : after, error };
}

/** Whether two states say the same, slow quantities left aside. */
export function sameSwitches(a: State, b: State): boolean {
  if (a === b) return true;
  for (const name in a) if (typeof a[name] !== 'number' && a[name] !== b[name]) return false;
  for (const name in b) if (typeof b[name] !== 'number' && !(name in a)) return false;
  return true;
}
