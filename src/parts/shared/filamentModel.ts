import type { Law } from '../../circuit/element.ts';
import { blend, filament, resistive } from '../../circuit/laws.ts';
import type { State } from '../../circuit/scene.ts';
import { inrushOf, inrushRate } from './inrush.ts';

/** Cold over hot resistance of a filament (kfz-tech.de, Gluehlampe, secondary). */
const coldShare = 0.1;
/** Steady about 50 ms after switching on (lamptech.co.uk, starting of filament lamps, secondary), cold again after about a second (estimate), s. */
const warm_s = 0.05;
const cool_s = 1;

/** A filament with the heat it has: a tenth of its resistance in the first moment, its curve when steady. */
export function lampLaw(watt: number, rated_V: number, state: State): Law {
  const share = inrushOf(state);
  const hot = filament(watt, rated_V, coldShare);
  return share === 0 ? hot : blend(hot, resistive((coldShare * rated_V * rated_V) / watt), share);
}

/** Rate of `inrush` of a filament, 1/s. */
export function filamentRate(state: State, lit: boolean): number {
  return inrushRate(state, lit, warm_s, cool_s);
}
