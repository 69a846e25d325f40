import type { Dimension } from './parameter.ts';
import { gaugeArea_mm2, shownUnits, units } from './units.ts';

/** `why` says what was read and what was wanted, as a fact without a subject: `` `55 Ah` is a capacity, not a voltage ``. */
export type QuantityRead =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly code: QuantityCode; readonly why: string; readonly mend: readonly string[] };
export type QuantityCode = 'decimal-comma' | 'missing-unit' | 'wrong-dimension' | 'unknown-unit' | 'unreadable-quantity';

const number = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/;
const comma = /^([+-]?\d+),(\d+)\s*(.*)$/;
const gauge = /^(?:AWG(\d+|[1-4]\/0)|(\d+|[1-4]\/0)AWG)$/i;

/**
 * Reads a quantity with its unit; the unit decides the dimension and must be one of the wanted.
 *
 * @param text as written; spaces between number and unit are free, both µ and both Ω signs are read
 * @returns the number in the unit held inside: V, A, Ω, W, Ah, mm², m, degrees, °C, s, 0..1 for %, 1/min
 * Not checked: the range; that is the parameter's own.
 */
export function readQuantity(text: string, dimension: Dimension): QuantityRead {
  const shown = text.trim();
  const folded = shown.normalize('NFKC').replaceAll('−', '-').trim();
  const want = units[dimension];
  if (dimension === 'area') {
    const match = gauge.exec(folded.replace(/\s+/g, ''));
    if (match) return gaugeRead(match[1] ?? match[2] ?? '', shown);
  }
  const pointed = comma.exec(folded);
  if (pointed) return commaRead(shown, pointed, dimension);
  const match = number.exec(folded);
  const magnitude = Number(match?.[1] ?? Number.NaN);
  if (!match || !Number.isFinite(magnitude))
    return fail('unreadable-quantity', `\`${shown}\` is not ${want.noun}`, [`${want.noun} is written like this: \`${want.example}\``]);
  const unit = match[2] ?? '';
  const factor = Object.hasOwn(want.factors, unit) ? want.factors[unit] : undefined;
  if (factor !== undefined) return { ok: true, value: scaled(magnitude, factor) };
  if (unit === '')
    return fail('missing-unit', `\`${shown}\` has no unit`, [
      `${want.noun} is written with its unit, like this: \`${want.example}\``,
      `units: ${shownUnits(dimension)}`,
    ]);
  if (/^\d/.test(unit))
    return fail('unreadable-quantity', `\`${shown}\` holds a space between its digits`, ['write the digits without spaces']);
  const other = dimensionOf(unit, dimension);
  if (other)
    return fail('wrong-dimension', `\`${shown}\` is ${units[other].noun}, not ${want.noun}`, [
      `${want.noun} is written like this: \`${want.example}\``,
    ]);
  const twin = Object.keys(want.factors).filter((known) => known.toLowerCase() === unit.toLowerCase());
  const near = twin.map((known) => `\`${known.replace('mm2', 'mm²')}\` is near; capital and small letters count`);
  return fail('unknown-unit', `\`${shown}\`: \`${unit}\` is no unit of ${want.noun}`, [...near, `units: ${shownUnits(dimension)}`]);
}

/** 0.8 m from 80 cm without the digits that a product by 0.01 leaves behind. */
function scaled(magnitude: number, factor: number): number {
  return factor < 1 ? magnitude / Math.round(1 / factor) : magnitude * factor;
}

function gaugeRead(written: string, shown: string): QuantityRead {
  const steps = /^0+$/.test(written) ? 1 - written.length : written.endsWith('/0') ? 1 - Number(written[0]) : Number(written);
  if (steps < -3 || steps > 40) return fail('unreadable-quantity', `\`${shown}\` is outside of the gauges`, ['AWG goes from 4/0 to 40']);
  return { ok: true, value: gaugeArea_mm2(steps) };
}

function commaRead(shown: string, [, whole = '', parts = '', unit = '']: RegExpExecArray, dimension: Dimension): QuantityRead {
  const tail = unit === '' ? '' : ` ${shownUnit(unit)}`;
  const point = `${whole}.${parts}${tail}`;
  const thousands = parts.length === 3 ? [`or \`${whole}${parts}${tail}\`, if the comma parts the thousands`] : [];
  return fail('decimal-comma', `\`${shown}\` has a comma, and ${units[dimension].noun} is written with a decimal point`, [
    `write \`${point}\``,
    ...thousands,
  ]);
}

function dimensionOf(unit: string, not: Dimension): Dimension | undefined {
  if (/^AWG$/i.test(unit)) return 'area';
  return (Object.keys(units) as Dimension[]).find((d) => d !== not && Object.hasOwn(units[d].factors, unit));
}

function shownUnit(folded: string): string {
  return folded.replace('μ', 'µ').replace('mm2', 'mm²');
}

function fail(code: QuantityCode, why: string, mend: readonly string[]): QuantityRead {
  return { ok: false, code, why, mend };
}

/** Largest unit first: the unit shown is the first whose share of the quantity reaches `from`. */
const shown: Readonly<Record<Dimension, readonly (readonly [unit: string, factor: number, from: number])[]>> = {
  voltage: [
    ['V', 1, 0.1],
    ['mV', 1e-3, 0.1],
    ['µV', 1e-6, 0],
  ],
  current: [
    ['A', 1, 1],
    ['mA', 1e-3, 0.1],
    ['µA', 1e-6, 0],
  ],
  resistance: [
    ['TΩ', 1e12, 1],
    ['GΩ', 1e9, 1],
    ['MΩ', 1e6, 1],
    ['kΩ', 1e3, 1],
    ['Ω', 1, 0.1],
    ['mΩ', 1e-3, 0.1],
    ['µΩ', 1e-6, 1],
    ['nΩ', 1e-9, 0],
  ],
  power: [
    ['kW', 1e3, 1],
    ['W', 1, 0.1],
    ['mW', 1e-3, 0],
  ],
  charge: [
    ['Ah', 1, 0.1],
    ['mAh', 1e-3, 0],
  ],
  area: [['mm²', 1, 0]],
  length: [
    ['m', 1, 0.1],
    ['cm', 1e-2, 1],
    ['mm', 1e-3, 0],
  ],
  angle: [['°', 1, 0]],
  temperature: [['°C', 1, 0]],
  time: [
    ['days', 86400, 2],
    ['h', 3600, 2],
    ['min', 60, 2],
    ['s', 1, 0.1],
    ['ms', 1e-3, 0],
  ],
  share: [['%', 1e-2, 0]],
  rotation: [['1/min', 1, 0]],
};

/**
 * A quantity as people write it: `55 Ah`, `0.4 V`, `320 mA`, `75°`. Reads back by `readQuantity`.
 *
 * @param amount in the unit held inside; `Infinity` gives `∞ Ω`, which does not read back
 * @param digits significant digits kept, 4 unless told; trailing zeros go
 */
export function quantityText(amount: number, dimension: Dimension, digits = 4): string {
  const size = Math.abs(amount);
  const scale = shown[dimension];
  const plain = scale.find(([, factor]) => factor === 1) ?? scale[0]!;
  // Rounded up by half a last digit first, so that 0.99999 A is 1 A and not 1000 mA.
  const rounded = size * (1 + 0.5 * 10 ** -digits);
  const [unit, factor] =
    size === 0 || size === Number.POSITIVE_INFINITY ? plain : (scale.find(([, f, from]) => rounded / f >= from) ?? plain);
  const figure = size === Number.POSITIVE_INFINITY ? (amount < 0 ? '-∞' : '∞') : plainDigits(amount / factor, digits);
  return unit === '°' ? `${figure}°` : `${figure} ${unit}`;
}

/** Digits without an exponent, for any size that a unit leaves. */
function plainDigits(figure: number, digits: number): string {
  const kept = Number(figure.toPrecision(digits));
  const text = String(kept === 0 ? 0 : kept);
  if (!text.includes('e')) return text;
  return Math.abs(kept) >= 1 ? kept.toFixed(0) : kept.toFixed(20).replace(/0+$/, '');
}
