import type { Law } from '../../circuit/element.ts';
import type { Judged, Verdict } from '../../circuit/part.ts';
import { verdictOf } from './verdict.ts';

/** Currents this many times what the volts explain: a shorted turn or a held rotor works badly, a bridged one not at all (estimate). */
const tooMuch = 1.5;
const farTooMuch = 2.5;

/**
 * Verdict of a load by the volts that its working part itself gets. When less current flows than the healthy part
 * would take at these volts, the rest is lost inside (burnt filament, worn brush): then the volts are counted that
 * belong to the current. When far more flows, the part is shorted or held, and no volts make it work.
 *
 * @param law     the healthy part, from first to second end
 * @param volts   across the part, either polarity
 * @param amperes through it, same sign
 * @param weakBelow,deadBelow shares of the rated volts
 */
export function judgedByLaw(law: Law, volts: number, amperes: number, rated_V: number, weakBelow: number, deadBelow: number): Judged {
  const share = Math.abs(ownVolts(law, volts, amperes)) / rated_V;
  const verdict = verdictOf(share, weakBelow, deadBelow);
  return {
    verdict: withExcess(verdict, Math.abs(law(volts).ampere), Math.abs(amperes)),
    volts: Math.abs(volts),
    amperes: Math.abs(amperes),
  };
}

/** A verdict made worse by current that the volts do not explain. */
export function withExcess(verdict: Verdict, explained_A: number, amperes: number): Verdict {
  if (amperes > farTooMuch * explained_A && amperes > 1e-6) return 'dead';
  return amperes > tooMuch * explained_A && verdict === 'works' ? 'weak' : verdict;
}

/** Volts at which the healthy part takes the current that flows, never more than are there. By halving, to 1 part in 10^6; only when they differ. */
export function ownVolts(law: Law, volts: number, amperes: number): number {
  if (Math.abs(amperes) >= 0.999 * Math.abs(law(volts).ampere)) return volts;
  let [low, high] = [0, volts];
  for (let halving = 0; halving < 20; halving++) {
    const middle = (low + high) / 2;
    if (Math.abs(law(middle).ampere) < Math.abs(amperes)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
