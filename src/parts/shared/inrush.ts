import type { Rate } from '../../circuit/part.ts';
import type { State } from '../../circuit/scene.ts';

/**
 * The first moments of a load: a cold filament, a rotor that still stands. A state `inrush` from 1 (just switched on)
 * to 0 (steady). A part begins steady, so that a scene shows what stays; a play lets it rise to 1 while the part is
 * off and fall while it is on.
 */
export const steady: State = { inrush: 0 };

export function inrushOf(state: State): number {
  const share = state['inrush'];
  return typeof share === 'number' ? Math.min(1, Math.max(0, share)) : 0;
}

/** A change counts as over after this many time constants: 5 % are left. */
const over = 3;

/**
 * Where `inrush` is going.
 *
 * @param settle_s from switched on to steady
 * @param recover_s from switched off to cold or standing again
 */
export function inrushRate(powered: boolean, settle_s: number, recover_s: number): Rate {
  return powered ? { to: 0, tau: settle_s / over } : { to: 1, tau: recover_s / over };
}
