import type { State } from '../../circuit/scene.ts';

/** Electronics wake at one voltage and give up at a lower one: this much lower, V (estimate). */
const apart_V = 0.5;

/** Whether electronics that need `needs_V` are alive, with the hysteresis of their regulator. */
export function isFed(state: State, name: string, volts: number, needs_V: number): boolean {
  return volts >= (state[name] === true ? needs_V - apart_V : needs_V);
}

/** The state with one flag as wanted; the same state when it is so already. */
export function withFlag(state: State, name: string, wanted: boolean): State {
  return (state[name] === true) === wanted ? state : { ...state, [name]: wanted };
}
