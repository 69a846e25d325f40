import type { State } from '../../circuit/scene.ts';

/** Electronics wake at one voltage and give up at a lower one: this much lower, V (estimate). */
const apart_V = 0.5;

/** Whether electronics that need `needs_V` are alive, with the hysteresis of their regulator. */
export function isFed(state: State, name: string, volts: number, needs_V: number): boolean {
  return volts >= (state[name] === true ? needs_V - apart_V : needs_V);
}

/** Electronics that lost their volts begin anew this long after they come back, s (estimate: reset and first look at the sensors). */
const restart_s = 0.1;

/** Delay of a change that gives electronics their volts back. */
export const restartDelay = (state: State, wanted: State): number => (state['fed'] === false && wanted['fed'] === true ? restart_s : 0);

/** The state with one flag as wanted; the same state when it is so already. */
export function withFlag(state: State, name: string, wanted: boolean): State {
  return (state[name] === true) === wanted ? state : { ...state, [name]: wanted };
}
