import type { Judged, Verdict } from '../../circuit/part.ts';

/** Works at or above `weakBelow`, dead below `deadBelow`; both are shares of the rated figure, as is `share`. */
export function verdictOf(share: number, weakBelow: number, deadBelow: number): Verdict {
  if (share >= weakBelow) return 'works';
  return share >= deadBelow ? 'weak' : 'dead';
}

/**
 * Verdict of a load that is a plain resistance: by the current through it, so that a break inside the load, where
 * its terminals still show full volts, is seen as dead.
 *
 * @param rated_A current at rated volts
 */
export function judgedByCurrent(volts: number, amperes: number, rated_A: number, weakBelow: number, deadBelow: number): Judged {
  return { verdict: verdictOf(Math.abs(amperes) / rated_A, weakBelow, deadBelow), volts: Math.abs(volts), amperes: Math.abs(amperes) };
}
