import type { Parameter, Source } from '../../circuit/parameter.ts';
import { estimate } from './sources.ts';

/** Rated volts of a load; the figures of the load (watts, amperes) are meant at these. */
export const ratedVolts = {
  as: 'quantity',
  dimension: 'voltage',
  about: 'volts at which its power or current is meant',
  default: 12,
  min: 0.1,
  max: 100,
  source: 'nominal voltage of a 12 V vehicle',
} as const satisfies Parameter;

/** The two limits of a load's verdict, as shares of its rated volts. */
export function limits<const W extends number, const D extends number>(weak: W, dead: D, source: Source = estimate) {
  return {
    'weak-below': {
      as: 'quantity',
      dimension: 'share',
      about: 'weak below this share of its rated volts',
      default: weak,
      min: 0,
      max: 1,
      source,
    },
    'dead-below': {
      as: 'quantity',
      dimension: 'share',
      about: 'dead below this share of its rated volts',
      default: dead,
      min: 0,
      max: 1,
      source: estimate,
    },
  } as const satisfies Record<string, Parameter>;
}

/** A current in A with a default and where it comes from. */
export function current<const N extends number>(about: string, amperes: N, source: Source, min = 1e-6) {
  return { as: 'quantity', dimension: 'current', about, default: amperes, min, max: 2000, source } as const satisfies Parameter;
}

/** A resistance in Ω with a default and where it comes from. */
export function resistance<const N extends number>(about: string, ohms: N, source: Source) {
  return { as: 'quantity', dimension: 'resistance', about, default: ohms, min: 1e-6, max: 1e9, source } as const satisfies Parameter;
}

/** A share 0..1, written in %. */
export function share<const N extends number>(about: string, part: N, source: Source, max = 1) {
  return { as: 'quantity', dimension: 'share', about, default: part, min: 0, max, source } as const satisfies Parameter;
}

/** A time in s. */
export function time<const N extends number>(about: string, seconds: N, source: Source) {
  return { as: 'quantity', dimension: 'time', about, default: seconds, min: 0, max: 1e7, source } as const satisfies Parameter;
}

/** A voltage in V. */
export function voltage<const N extends number>(about: string, volts: N, source: Source) {
  return { as: 'quantity', dimension: 'voltage', about, default: volts, min: 0, max: 1000, source } as const satisfies Parameter;
}
