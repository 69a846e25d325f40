import type { Law } from '../../circuit/element.ts';
import { blend, filament, resistive } from '../../circuit/laws.ts';
import type { Rate } from '../../circuit/part.ts';
import type { State } from '../../circuit/scene.ts';
import { inrushOf, inrushRate } from './inrush.ts';

/** Cold over hot resistance of a filament (kfz-tech.de, Gluehlampe, secondary). */
const coldShare = 0.1;
/**
 * From 10 to 12 times the current down to twice in 3 to 5 ms (a white paper on lamp inrush, secondary): at a peak of 10
 * times, 4.4 ms are ln 9 time constants of 2 ms. Steady long before 50 ms (lamptech.co.uk, starting of filament lamps, secondary).
 */
const warm_s = 0.006;
/** Cold again after about a second (estimate), s. */
const cool_s = 1;

/** A filament with the heat it has: a tenth of its resistance in the first moment, its curve when steady. */
export function lampLaw(watt: number, rated_V: number, state: State): Law {
  const share = inrushOf(state);
  const hot = filament(watt, rated_V, coldShare);
  return share === 0 ? hot : blend(hot, resistive((coldShare * rated_V * rated_V) / watt), share);
}

/** Under this current a filament is cold, A (estimate). */
const cold_A = 0.01;

/** Where `inrush` of a filament is going. */
export function filamentRate(ampere: number): Rate {
  return inrushRate(Math.abs(ampere) / cold_A, warm_s, cool_s);
}
