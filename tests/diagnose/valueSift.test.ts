import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cutOf, type Saying } from '../../src/diagnose/outcomes.ts';
import { ValueSift } from '../../src/diagnose/valueSift.ts';

const suspects = 5;
const anyCases = fc.array(
  fc.record({
    suspect: fc.integer({ min: 0, max: suspects - 1 }),
    at: fc.oneof(fc.constantFrom(0, 12.6), fc.double({ min: -1, max: 14, noNaN: true })),
    width: fc.double({ min: 0.01, max: 0.5, noNaN: true }),
    weight: fc.double({ min: 1e-6, max: 1, noNaN: true }),
  }),
  { minLength: 2, maxLength: 40 },
);

test('the quick sift gives a reading the bits that its cut into outcomes has, reading after reading', () => {
  fc.assert(
    fc.property(fc.array(anyCases, { minLength: 1, maxLength: 4 }), (readings) => {
      const [first] = readings;
      const whole = first!.reduce((sum, c) => sum + c.weight, 0);
      const cases = first!.map(({ suspect, weight }) => ({ suspect, weight: weight / whole }));
      const mass = new Float64Array(suspects);
      for (const c of cases) mass[c.suspect]! += c.weight;
      const sift = new ValueSift(cases, mass);
      for (const reading of readings) {
        const sayings = cases.map((of, k): Saying => {
          const { at, width } = reading[k % reading.length]!;
          [sift.at[k], sift.width[k]] = [at, width];
          return { of, label: '', at, width, chance: 1 };
        });
        expect(sift.bits()).toBeCloseTo(cutOf(sayings, mass).bits, 9);
      }
    }),
    { seed: 20261125, numRuns: 300 },
  );
});

test('what was read before leaves no trace, not even among equal values: found on 2026-11-26', () => {
  const cases = [0.3, 0.3, 0.4].map((weight, suspect) => ({ suspect, weight }));
  const sift = new ValueSift(
    cases,
    Float64Array.from(cases, (c) => c.weight),
  );
  const bits = (at: readonly number[], width: readonly number[]) => {
    sift.at.set(at);
    sift.width.set(width);
    return sift.bits();
  };
  const first = bits([0, 0, 0.3], [0.05, 0.5, 0.05]);
  bits([2, 1, 3], [0.05, 0.5, 0.05]);
  expect(bits([0, 0, 0.3], [0.05, 0.5, 0.05])).toBe(first);
});
