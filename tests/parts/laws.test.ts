import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Law } from '../../src/circuit/element.ts';
import { blend, filament, junction, resistive, running, selfHeating, steadyDraw, zenerJunction } from '../../src/circuit/laws.ts';

const laws: readonly { readonly name: string; readonly law: Law }[] = [
  { name: 'steady draw', law: steadyDraw(0.9, 2) },
  { name: 'filament', law: filament(21, 12) },
  { name: 'glow plug', law: selfHeating(130, 12, 0.45, 0.75) },
  { name: 'PTC heater', law: selfHeating(120, 12, 1 / 3, 0.2) },
  { name: 'diode', law: junction(0.7, 0.05) },
  { name: 'Zener diode', law: zenerJunction(0.7, 15, 0.5) },
  { name: 'pump', law: running(5, 12, 5, 0.25) },
  { name: 'blower', law: running(10, 12, 5, 0.75) },
  { name: 'motor between standstill and speed', law: blend(running(5, 12, 5, 0.25), resistive(0.48), 0.4) },
];
const volts = fc.double({ min: -30, max: 30, noNaN: true });

test.each(laws)('$name: more volts never give less current, the slope is never nothing', ({ law }) => {
  fc.assert(
    fc.property(volts, volts, (a, b) => {
      const [low, high] = [Math.min(a, b), Math.max(a, b)];
      expect(law(high).ampere).toBeGreaterThanOrEqual(law(low).ampere - 1e-12);
      expect(law(a).siemens).toBeGreaterThan(0);
    }),
    { seed: 7 },
  );
});

test.each(laws)('$name: nothing flows at no volts', ({ law }) => {
  expect(law(0).ampere).toBe(0);
});

test.each(laws)('$name: the slope is that of the current', ({ law }) => {
  fc.assert(
    fc.property(volts, (v) => {
      const step = 1e-6;
      const slope = (law(v + step).ampere - law(v - step).ampere) / (2 * step);
      // Differences of doubles: 1e-16 of the current over 1e-6 V, and the curvature of the sharpest knee.
      expect(Math.abs(slope - law(v).siemens)).toBeLessThan(1e-5 * law(v).siemens + 1e-8 * (1 + Math.abs(law(v).ampere)));
    }),
    { seed: 7 },
  );
});

test('a motor takes its running current at rated volts, and at standstill has the slope of its held current', () => {
  for (const growth of [0, 0.25, 0.75]) {
    const law = running(4, 12, 5, growth);
    expect(law(12).ampere).toBeCloseTo(4, 6);
    expect(law(0).siemens).toBeCloseTo((5 * 4) / 12, 5);
  }
});
