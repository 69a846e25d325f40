import type { Dimension } from './parameter.ts';

/** How one dimension is spoken of and written. */
export type Units = {
  /** With its article: `a voltage`. */
  readonly noun: string;
  /** One way to write it, for messages. */
  readonly example: string;
  /** Unit -> factor to the unit held inside (see Dimension). Offsets do not occur: temperatures are written in °C only. */
  readonly factors: Readonly<Record<string, number>>;
};

/**
 * Units by dimension, after compatibility folding of the text (NFKC): both µ signs are `μ`, both Ω signs are `Ω`,
 * `mm²` is `mm2`. Case counts, since mΩ and MΩ are nine powers of ten apart. AWG is read apart, as it is no factor.
 */
export const units: Readonly<Record<Dimension, Units>> = {
  voltage: { noun: 'a voltage', example: '12.6 V', factors: { V: 1, mV: 1e-3, μV: 1e-6, kV: 1e3 } },
  current: { noun: 'a current', example: '10 A', factors: { A: 1, mA: 1e-3, μA: 1e-6, nA: 1e-9, kA: 1e3 } },
  resistance: {
    noun: 'a resistance',
    example: '85 Ω',
    factors: {
      ...prefixed('Ω'),
      ...prefixed('ohm'),
      Ohm: 1,
      ohms: 1,
    },
  },
  power: { noun: 'a power', example: '21 W', factors: { W: 1, mW: 1e-3, kW: 1e3 } },
  charge: { noun: 'a capacity', example: '55 Ah', factors: { Ah: 1, mAh: 1e-3 } },
  area: { noun: 'an area', example: '1.5 mm²', factors: { mm2: 1 } },
  length: { noun: 'a length', example: '0.8 m', factors: { m: 1, cm: 1e-2, mm: 1e-3 } },
  angle: { noun: 'an angle', example: '60°', factors: { '°': 1, deg: 1 } },
  temperature: { noun: 'a temperature', example: '20 °C', factors: { '°C': 1 } },
  time: { noun: 'a time', example: '20 s', factors: { s: 1, ms: 1e-3, min: 60, h: 3600, day: 86400, days: 86400, d: 86400 } },
  share: { noun: 'a share', example: '80 %', factors: { '%': 1e-2 } },
  rotation: { noun: 'a speed of rotation', example: '850 1/min', factors: { '1/min': 1, rpm: 1 } },
};

/** Units as they are shown in messages, in place of the folded ones. */
export function shownUnits(dimension: Dimension): string {
  const names = Object.keys(units[dimension].factors).map((unit) => unit.replace('μ', 'µ').replace('mm2', 'mm²'));
  if (dimension === 'area') names.push('AWG');
  if (dimension === 'resistance') return `${names.filter((unit) => unit.endsWith('Ω')).join(', ')}; \`ohm\` is read for Ω`;
  return names.join(', ');
}

function prefixed(unit: string): Record<string, number> {
  const prefixes = { '': 1, n: 1e-9, μ: 1e-6, m: 1e-3, k: 1e3, M: 1e6, G: 1e9, T: 1e12 };
  return Object.fromEntries(Object.entries(prefixes).map(([prefix, factor]) => [prefix + unit, factor]));
}

/**
 * Cross-section of a wire by American gauge, mm²: the diameter shrinks by 92 in 39 equal steps from 0000 (0.46 in)
 * to 36 (0.005 in).
 *
 * @param gauge 0 to 40; 00 is -1, 000 is -2, 0000 is -3
 * Source: ASTM B258 (definition; from memory). AWG 16 gives 1.309 mm², AWG 0000 gives 107.2 mm².
 */
export function gaugeArea_mm2(gauge: number): number {
  const diameter_mm = 0.127 * 92 ** ((36 - gauge) / 39);
  return (Math.PI / 4) * diameter_mm * diameter_mm;
}
