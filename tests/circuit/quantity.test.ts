import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Dimension } from '../../src/circuit/parameter.ts';
import { quantityText, readQuantity } from '../../src/circuit/quantity.ts';
import { gaugeArea_mm2, units } from '../../src/circuit/units.ts';

const read: readonly (readonly [string, Dimension, number])[] = [
  ['12 V', 'voltage', 12],
  ['12.6V', 'voltage', 12.6],
  ['400 mV', 'voltage', 0.4],
  ['-0.5 V', 'voltage', -0.5],
  ['−0.5 V', 'voltage', -0.5],
  ['50 µV', 'voltage', 50e-6],
  ['2 A', 'current', 2],
  ['4 mA', 'current', 0.004],
  ['12 µA', 'current', 12e-6], // U+00B5
  ['12 μA', 'current', 12e-6], // U+03BC
  ['420 A', 'current', 420],
  ['85 Ω', 'resistance', 85], // U+03A9
  ['85 Ω', 'resistance', 85], // U+2126
  ['85 ohm', 'resistance', 85],
  ['85 Ohm', 'resistance', 85],
  ['62 mΩ', 'resistance', 0.062],
  ['5 mohm', 'resistance', 0.005],
  ['1 nΩ', 'resistance', 1e-9],
  ['3 µΩ', 'resistance', 3e-6],
  ['2 kΩ', 'resistance', 2000],
  ['2.2kohm', 'resistance', 2200],
  ['10 MΩ', 'resistance', 1e7],
  ['1 GΩ', 'resistance', 1e9],
  ['1 TΩ', 'resistance', 1e12],
  ['0 Ω', 'resistance', 0],
  ['1e-3 Ω', 'resistance', 0.001],
  ['.5 Ω', 'resistance', 0.5],
  ['5. Ω', 'resistance', 5],
  ['21 W', 'power', 21],
  ['1.5 kW', 'power', 1500],
  ['500 mW', 'power', 0.5],
  ['55 Ah', 'charge', 55],
  ['1200 mAh', 'charge', 1.2],
  ['1.5 mm²', 'area', 1.5],
  ['1.5 mm2', 'area', 1.5],
  ['0.75mm²', 'area', 0.75],
  ['1.2 m', 'length', 1.2],
  ['80 cm', 'length', 0.8],
  ['35 mm', 'length', 0.035],
  ['60°', 'angle', 60],
  ['-30 °', 'angle', -30],
  ['60 deg', 'angle', 60],
  ['20 °C', 'temperature', 20],
  ['-25°C', 'temperature', -25],
  ['20 ℃', 'temperature', 20],
  ['30 s', 'time', 30],
  ['250 ms', 'time', 0.25],
  ['5 min', 'time', 300],
  ['2 h', 'time', 7200],
  ['3 days', 'time', 259200],
  ['1 day', 'time', 86400],
  ['40 %', 'share', 0.4],
  ['80%', 'share', 0.8],
  ['850 1/min', 'rotation', 850],
  ['850 rpm', 'rotation', 850],
  [' 12 V ', 'voltage', 12],
  ['12\u00a0V', 'voltage', 12], // no-break space, as word processors put it
  ['12\u202fV', 'voltage', 12],
];

test.each(read)('reads %s as %s', (text, dimension, expected) => {
  expect(readQuantity(text, dimension)).toEqual({ ok: true, value: expected });
});

/** Printed cross-sections of the gauges, mm². Tolerance: half a unit of the last printed digit. Source: ASTM B258 table (from memory). */
const gauges = [
  ['4/0 AWG', 107.2, 0.05],
  ['0000 AWG', 107.2, 0.05],
  ['0 AWG', 53.49, 0.02],
  ['AWG 10', 5.261, 0.0005],
  ['14 AWG', 2.081, 0.0005],
  ['16 AWG', 1.309, 0.0005],
  ['16awg', 1.309, 0.0005],
  ['36 AWG', 0.01267, 0.000005],
] as const;
test.each(gauges)('%s is %d mm²', (text, area, tolerance) => {
  const got = readQuantity(text, 'area');
  expect(got.ok && Math.abs(got.value - area)).toBeLessThanOrEqual(tolerance);
});

test('a gauge thicker by three doubles the area', () => {
  expect(gaugeArea_mm2(13) / gaugeArea_mm2(16)).toBeCloseTo(2, 1);
});

const refused: readonly (readonly [string, Dimension, string, string, string])[] = [
  ['55 Ah', 'voltage', 'wrong-dimension', '`55 Ah` is a capacity, not a voltage', '12.6 V'],
  ['12 V', 'resistance', 'wrong-dimension', '`12 V` is a voltage, not a resistance', '85 Ω'],
  ['60 °C', 'angle', 'wrong-dimension', '`60 °C` is a temperature, not an angle', '60°'],
  ['60°', 'temperature', 'wrong-dimension', '`60°` is an angle, not a temperature', '20 °C'],
  ['16 AWG', 'length', 'wrong-dimension', '`16 AWG` is an area, not a length', '0.8 m'],
  ['5 mm²', 'length', 'wrong-dimension', '`5 mm²` is an area, not a length', '0.8 m'],
  ['12,6 V', 'voltage', 'decimal-comma', '`12,6 V` has a comma, and a voltage is written with a decimal point', 'write `12.6 V`'],
  ['1,000 W', 'power', 'decimal-comma', '`1,000 W` has a comma, and a power is written with a decimal point', 'or `1000 W`'],
  ['0,75', 'area', 'decimal-comma', '`0,75` has a comma, and an area is written with a decimal point', 'write `0.75`'],
  ['12', 'voltage', 'missing-unit', '`12` has no unit', 'units: V, mV, µV, kV'],
  ['1.5', 'area', 'missing-unit', '`1.5` has no unit', 'mm², AWG'],
  ['12 v', 'voltage', 'unknown-unit', '`12 v`: `v` is no unit of a voltage', '`V` is near'],
  ['5 apples', 'current', 'unknown-unit', '`5 apples`: `apples` is no unit of a current', 'units: A, mA'],
  ['twelve V', 'voltage', 'unreadable-quantity', '`twelve V` is not a voltage', '12.6 V'],
  ['V 12', 'voltage', 'unreadable-quantity', '`V 12` is not a voltage', '12.6 V'],
  ['1e999 V', 'voltage', 'unreadable-quantity', '`1e999 V` is not a voltage', '12.6 V'],
  ['', 'voltage', 'unreadable-quantity', '`` is not a voltage', '12.6 V'],
  ['77 AWG', 'area', 'unreadable-quantity', '`77 AWG` is outside of the gauges', '4/0 to 40'],
];
test.each(refused)('refuses %s as %s: %s', (text, dimension, code, why, mend) => {
  const got = readQuantity(text, dimension);
  expect(got).toMatchObject({ ok: false, code, why });
  expect(got.ok ? '' : got.mend.join('; ')).toContain(mend);
});

test('units that an object carries by itself are no units', () => {
  for (const unit of ['constructor', '__proto__', 'toString']) expect(readQuantity(`1 ${unit}`, 'voltage').ok).toBe(false);
});

const written: readonly (readonly [number, Dimension, string])[] = [
  [55, 'charge', '55 Ah'],
  [12.6, 'voltage', '12.6 V'],
  [0.4, 'voltage', '0.4 V'],
  [0.012, 'voltage', '12 mV'],
  [0.32, 'current', '320 mA'],
  [0.004, 'current', '4 mA'],
  [0.99999, 'current', '1 A'],
  [420, 'current', '420 A'],
  [0.5, 'resistance', '0.5 Ω'],
  [0.005, 'resistance', '5 mΩ'],
  [0.0003, 'resistance', '0.3 mΩ'],
  [2000, 'resistance', '2 kΩ'],
  [1e12, 'resistance', '1 TΩ'],
  [0, 'resistance', '0 Ω'],
  [Number.POSITIVE_INFINITY, 'resistance', '∞ Ω'],
  [0.4, 'share', '40 %'],
  [75, 'angle', '75°'],
  [-25, 'temperature', '-25 °C'],
  [1.5, 'area', '1.5 mm²'],
  [0.8, 'length', '0.8 m'],
  [0.25, 'time', '0.25 s'],
  [0.02, 'time', '20 ms'],
  [300, 'time', '5 min'],
  [259200, 'time', '3 days'],
  [850, 'rotation', '850 1/min'],
  [-0, 'voltage', '0 V'],
];
test.each(written)('writes %d of %s as %s', (amount, dimension, text) => {
  expect(quantityText(amount, dimension)).toBe(text);
});

describe('laws', () => {
  const dimension = fc.constantFrom(...(Object.keys(units) as Dimension[]));
  const amount = fc.double({ min: 1e-9, max: 1e12, noNaN: true });
  test('what is written reads back to the digits kept', () => {
    fc.assert(
      fc.property(dimension, amount, (d, x) => {
        const back = readQuantity(quantityText(x, d, 6), d);
        return back.ok && Math.abs(back.value / x - 1) < 1e-5;
      }),
      { seed: 7, numRuns: 3000 },
    );
  });
  test('any text is read or refused with a reason', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 20 }), dimension, (text, d) => {
        const got = readQuantity(text, d);
        return got.ok ? Number.isFinite(got.value) : got.why.length > 0 && got.mend.length > 0;
      }),
      { seed: 7, numRuns: 3000 },
    );
  });
});
