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
 * Where `inrush` is going. Smooth in the drive: a lamp on the edge of being lit would otherwise go to and fro there,
 * drawing more as it cools and less as it warms.
 *
 * @param drive    how strongly it is fed; from 1 on it settles, under 1 it recovers, 10 and more leave nothing of it
 * @param settle_s from switched on to steady
 * @param recover_s from switched off to cold or standing again
 */
export function inrushRate(drive: number, settle_s: number, recover_s: number): Rate {
  return { to: 1 / (1 + drive ** 4), tau: (drive > 1 ? settle_s : recover_s) / over };
}

/** Drive of a part that is either fed or not. */
export const fedOrNot = (isFed: boolean): number => (isFed ? Number.POSITIVE_INFINITY : 0);
