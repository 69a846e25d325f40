import { describe, expect, test } from 'vitest';
import { asSeen, believed, cutOf, massOf, outcomesOf, type Saying, unitOf } from '../../src/diagnose/outcomes.ts';

describe('an outcome as a finding would hold it', () => {
  test.each([
    ['engine fires', { engine: 'fires' }],
    ['engine cranks', { engine: 'cranks' }],
    ['engine cranks slowly', { engine: 'cranks slowly' }],
    ['engine runs', { engine: 'runs' }],
    ['engine dies', { engine: 'dies' }],
    ['engine still', { engine: 'still' }],
    ['cured', { outcome: 'cured' }],
    ['changes', { outcome: 'changes' }],
    ['no change', { outcome: 'no change' }],
    ['open', { value: Number.POSITIVE_INFINITY }],
    ['works', { word: 'works' }],
    ['weak', { word: 'weak' }],
    ['comes and goes', { word: 'comes and goes' }],
    ['dead', { word: 'dead' }],
  ])('%s', (label, seen) => {
    expect(asSeen(label)).toEqual(seen);
  });
});

const value = (suspect: number, weight: number, at: number, width: number): Saying => ({
  of: { suspect, weight },
  label: '',
  at,
  width,
  chance: 1,
});
const word = (suspect: number, weight: number, label: string, chance = 1): Saying => ({
  of: { suspect, weight },
  label,
  at: 0,
  width: 0,
  chance,
});
const told = (sayings: readonly Saying[], unit: 'V' | 'A' | 'Ω' | '') => {
  const mass = massOf(
    sayings.map(({ of }) => ({ suspect: of.suspect, mass: of.weight, faults: [] })),
    3,
  );
  const cut = cutOf(sayings, mass);
  return { bits: cut.bits, outcomes: outcomesOf(cut, unit, 3).map((o) => [o.seen, o.as, Number(o.probability.toFixed(3)), [...o.shares]]) };
};

describe('what can come of a reading', () => {
  test('values further apart than their widths are outcomes of their own, in volts where they are volts', () => {
    const { bits, outcomes } = told([value(0, 0.5, 12.4, 0.3), value(1, 0.25, 0.01, 0.05), value(2, 0.25, 0, 0.05)], 'V');
    expect(outcomes).toEqual([
      ['about 0 V', { value: 0.005 }, 0.5, [0, 0.25, 0.25]],
      ['about 12.4 V', { value: 12.4 }, 0.5, [0.5, 0, 0]],
    ]);
    // Two halves that are told apart for certain: one bit (Shannon).
    expect(bits).toBeCloseTo(1, 9);
  });
  test('small volts that are told apart are told in millivolts', () => {
    const { outcomes } = told([value(0, 0.5, 0, 1e-4), value(1, 0.3, 0.0043, 1e-4), value(2, 0.2, 0.022, 5e-4)], 'V');
    expect(outcomes.map(([seen]) => seen)).toEqual(['about 0 V', 'about 4.3 mV', 'about 22 mV']);
  });
  test('amperes under one are told in milliamperes, ohms as they are', () => {
    expect(told([value(0, 0.5, 0.32, 0.02), value(1, 0.5, 3.25, 0.1)], 'A').outcomes.map(([seen]) => seen)).toEqual([
      'about 320 mA',
      'about 3.3 A',
    ]);
    expect(told([value(0, 0.5, 0.2, 0.02), value(1, 0.5, 4, 0.1)], 'Ω').outcomes.map(([seen]) => seen)).toEqual([
      'about 0.2 Ω',
      'about 4.0 Ω',
    ]);
  });
  test('a wide one tells its range', () => {
    const { outcomes } = told([value(0, 0.4, 9, 2), value(1, 0.3, 11.5, 2), value(2, 0.3, 0, 0.05)], 'V');
    expect(outcomes.map(([seen]) => seen)).toEqual(['about 0 V', '9.0 V to 11.5 V']);
  });
  test('words are outcomes of their own, each with its share; one of two worlds counts by its chance', () => {
    const { outcomes } = told([word(0, 0.6, 'works'), word(1, 0.4, 'works', 0.25), word(1, 0.4, 'dead', 0.75)], '');
    expect(outcomes.map(([seen, as, p]) => [seen, as, p])).toEqual([
      ['dead', { word: 'dead' }, 0.3],
      ['works', { word: 'works' }, 0.7],
    ]);
  });
  test('the unit follows from what is read', () => {
    const candidate = (observable: object) => ({ observable }) as Parameters<typeof unitOf>[0];
    expect(['volts', 'amperes', 'ohms', 'load', 'engine', 'touch'].map((of) => unitOf(candidate({ of })))).toEqual([
      'V',
      'A',
      'Ω',
      '',
      '',
      '',
    ]);
  });
  test('nobody believed in is nobody', () => {
    expect(believed([])).toEqual([]);
  });
});
