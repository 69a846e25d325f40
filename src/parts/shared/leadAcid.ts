import type { Law } from '../../circuit/element.ts';

/**
 * Volts at rest of a 12 V lead battery by charge, at 27 °C.
 * Source: charts of two makers of batteries, 100 % 1.265 to 0 % 1.120 specific gravity (secondary). Other printed sets
 * give 12.00 to 12.30 V at half charge, so charge is never read finer than 15 %.
 */
export const restVolts: readonly (readonly [charge: number, volts: number])[] = [
  [0, 11.89],
  [0.25, 12.06],
  [0.5, 12.24],
  [0.75, 12.45],
  [1, 12.65],
];

/** 0.2 mV/K in each cell. Source: chemistry, from memory; printed charts disagree. */
const perKelvin_V = 0.0012;
const chartTemperature_C = 27;

/**
 * Open-circuit volts of a lead battery.
 *
 * @param charge  0..1, straight lines between the chart's rows
 * @param nominal_V 6, 12, 24: the chart is for 12 V
 */
export function openCircuitVolts(charge: number, nominal_V: number, celsius: number): number {
  const at = Math.min(1, Math.max(0, charge));
  const k = Math.max(
    1,
    restVolts.findIndex(([c]) => c >= at),
  );
  const [[c0, v0], [c1, v1]] = [restVolts[k - 1]!, restVolts[k]!];
  const chart = v0 + ((v1 - v0) * (at - c0)) / (c1 - c0);
  return (chart + perKelvin_V * (celsius - chartTemperature_C)) * (nominal_V / 12);
}

/** Inner resistance over that of a full battery. Estimate. */
const chargeFactor: readonly (readonly [charge: number, factor: number])[] = [
  [0, 6],
  [0.2, 2],
  [0.5, 1.3],
  [1, 1],
];

/**
 * Inner resistance, Ω: 3.0 V over the cold-cranking current for 12 V and 25 °C, (1 + 0.017·(25 − T)) of it at other
 * temperatures, and more as the charge goes.
 * Sources: 3.0 V (2.5 to 3.5) from memory; temperature: fitted to 5.2 V / EN and 5.5 V / SAE rating at −18 °C; charge: estimate.
 */
export function innerResistance(coldCranking_A: number, nominal_V: number, charge: number, celsius: number): number {
  const at = Math.min(1, Math.max(0, charge));
  const k = Math.max(
    1,
    chargeFactor.findIndex(([c]) => c >= at),
  );
  const [[c0, f0], [c1, f1]] = [chargeFactor[k - 1]!, chargeFactor[k]!];
  const factor = f0 + ((f1 - f0) * (at - c0)) / (c1 - c0);
  const warmth = Math.max(0.4, 1 + 0.017 * (25 - celsius));
  return ((3 * (nominal_V / 12)) / coldCranking_A) * factor * warmth;
}

/**
 * Resistance against being charged, Ω: what a battery takes at 14.4 V is 1 % of its capacity in amperes when full, and
 * up to 40 % more as it empties (estimate). Without this a full battery would hold the system at its rest volts.
 */
export function chargingResistance(capacity_Ah: number, nominal_V: number, charge: number, rest_V: number): number {
  const taken_A = capacity_Ah * (0.01 + 0.4 * (1 - Math.min(1, Math.max(0, charge))));
  return Math.max(0.1, 1.2 * nominal_V - rest_V) / taken_A;
}

/** Resistance of a battery that has nothing left to give, Ω: a tenth of a milliampere, whatever hangs on it (estimate). Charged again, it takes. */
export const emptied_ohm = 1e5;

/** Over this charge a part of what goes in only gasses; at full all of it does (estimate). */
const gassesFrom = 0.95;

/** Share of a charging current that is stored. */
export const storedShare = (charge: number): number => Math.max(0, Math.min(1, (1 - charge) / (1 - gassesFrom)));

/**
 * Self-discharge in charge per second: twice as fast for every 10 K (common practice, no source).
 *
 * @param monthly share of the capacity in 30 days at 20 °C
 */
export const selfDischarge = (monthly: number, celsius: number): number => (monthly * 2 ** ((celsius - 20) / 10)) / (30 * 86_400);

/** Width of the bend between giving and taking, V: nothing beside any reading. */
const bend_V = 1e-6;

/**
 * A resistance that is small one way and large the other. Exactly nothing flows at 0 V; rises everywhere.
 *
 * @param give_ohm  while current flows from its first end to its second, > 0
 * @param take_ohm  the other way, > 0
 */
export function oneWay(give_ohm: number, take_ohm: number): Law {
  const [give, take] = [1 / give_ohm, 1 / take_ohm];
  return (volts) => {
    const size = Math.hypot(volts, bend_V);
    // size − bend, written so that volts far under the bend keep their digits.
    const giving = (volts + (volts * volts) / (size + bend_V)) / 2;
    return { ampere: take * volts + (give - take) * giving, siemens: take + ((give - take) * (1 + volts / size)) / 2 };
  };
}
