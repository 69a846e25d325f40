import type { State } from '../../circuit/scene.ts';

/**
 * An armature with hysteresis: pulls in at `pullIn_V`, lets go under `dropOut_V`. Returns the same state when nothing changes.
 */
export function pulledState(state: State, volts: number, pullIn_V: number, dropOut_V: number): State {
  const pulled = state['pulled'] === true;
  const wanted = pulled ? volts >= dropOut_V : volts >= pullIn_V;
  return wanted === pulled ? state : { ...state, pulled: wanted };
}
