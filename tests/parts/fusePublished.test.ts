import { describe, expect, test } from 'vitest';
import { breakerCurve } from '../../src/parts/circuitBreaker.ts';
import { curveTime, type FuseForm, openingTime } from '../../src/parts/shared/fuseCurve.ts';
import { fuseResistance } from '../../src/parts/shared/fuseResistance.ts';
import { meltingTime_s, steadyMelting_A } from '../../src/parts/shared/melting.ts';
import { circuitFrom } from './examples.ts';
import { circuitOf, solved } from './solved.ts';

const close = (is: number, ought: number, rtol: number) => expect(Math.abs(is / ought - 1)).toBeLessThanOrEqual(rtol);

describe('cold resistance', () => {
  // rtol: the digits printed.
  const resistances: readonly (readonly [FuseForm, number, number, string])[] = [
    ['blade', 10, 7.7, 'maker’s blade sheet, by way of a trade page (secondary)'],
    ['blade', 25, 2.52, 'maker’s blade sheet (secondary)'],
    ['blade', 40, 1.44, 'maker’s blade sheet (secondary)'],
    ['blade', 1, 123, 'maker’s blade sheet (from memory)'],
    ['blade', 5, 17.9, 'maker’s blade sheet (from memory)'],
    ['blade', 20, 3.38, 'maker’s blade sheet (from memory)'],
    ['blade', 30, 1.97, 'maker’s blade sheet (from memory)'],
    ['mini', 7.5, 10.85, 'maker’s mini sheet (secondary)'],
    ['mini', 15, 4.58, 'maker’s mini sheet (secondary)'],
    ['maxi', 30, 1.9, 'maker’s maxi sheet (secondary)'],
    ['maxi', 35, 1.7, 'maker’s maxi sheet (secondary)'],
    ['maxi', 40, 1.4, 'maker’s maxi sheet (secondary)'],
  ];
  test.each(resistances)('%s %f A: %f mΩ, %s', (form, rating, milliohm) => {
    close(1000 * fuseResistance(rating, form), milliohm, 1e-9);
  });

  // Charts of millivolts across a fuse. rtol: two printed digits.
  const drops: readonly (readonly [FuseForm, number, number, number, string])[] = [
    ['blade', 10, 1.0, 130, 'a trade page on fuse drop (secondary)'],
    ['mini', 15, 1.0, 218, 'trade journal chart, June 2017, fig. 13 (secondary)'],
    ['mini', 15, 0.1, 22, 'trade journal chart, June 2017, fig. 13 (secondary)'],
    ['blade', 15, 0.12, 25, 'computed from the blade sheet (from memory)'],
  ];
  test.each(drops)('%s %f A: %f mV across it is %f mA, %s', (form, rating, millivolt, milliampere) => {
    close(millivolt / fuseResistance(rating, form) / 1, milliampere, 0.02);
  });

  test('a bigger fuse has less resistance, and resistance times rating falls smoothly', () => {
    for (const form of ['blade', 'mini', 'maxi', 'ceramic', 'glass'] as const)
      for (let rating = 0.5; rating < 100; rating *= 1.07) {
        expect(fuseResistance(rating * 1.07, form)).toBeLessThan(fuseResistance(rating, form));
        expect(rating * 1.07 * fuseResistance(rating * 1.07, form)).toBeLessThan(1.04 * rating * fuseResistance(rating, form));
      }
  });

  test('100 mA through a seated 10 A blade fuse show 0.77 mV: maker’s blade sheet (secondary)', () => {
    const circuit = circuitOf('G1: { kind: current-supply, current: 100 mA }\nF1: { kind: fuse, rating: 10 A }', [
      'G1.+ F1.1',
      'F1.2 ground',
      'G1.- ground',
    ]);
    close(solved(circuit).volts('F1.1', 'F1.2'), 0.77e-3, 1e-6);
  });
});

describe('opening time', () => {
  // ISO 8820-3 as makers' sheets print it: the model's middle must lie between the row's ends, and the ends must be the row's.
  const rows: readonly (readonly [FuseForm, number, number, number, string])[] = [
    ['blade', 1.35, 0.75, 600, 'from memory'],
    ['blade', 1.6, 0.25, 50, 'maker’s blade sheet (secondary)'],
    ['blade', 2, 0.15, 5, 'maker’s blade sheet (secondary)'],
    ['blade', 3.5, 0.08, 0.5, 'from memory'],
    ['blade', 6, 0.03, 0.1, 'from memory'],
    ['mini', 1.35, 0.75, 600, 'maker’s mini sheet (secondary)'],
    ['mini', 2, 0.15, 5, 'maker’s mini sheet (secondary)'],
    ['mini', 3.5, 0.08, 0.5, 'maker’s mini sheet (secondary)'],
    ['mini', 6, 0.03, 0.1, 'maker’s mini sheet (secondary)'],
    ['maxi', 1.35, 60, 1800, 'maker’s maxi sheet (secondary)'],
    ['maxi', 2, 2, 50, 'maker’s maxi sheet (secondary)'],
    ['maxi', 3.5, 0.2, 7, 'maker’s maxi sheet (secondary)'],
    ['maxi', 6, 0.04, 1, 'maker’s maxi sheet (secondary)'],
  ];
  test.each(rows)('%s at %f times its rating: %f to %f s, %s', (form, share, least, most) => {
    const time = openingTime(share, form);
    close(time.least_s, least, 1e-9);
    close(time.most_s, most, 1e-9);
    close(time.mean_s, Math.sqrt(least * most), 1e-9);
  });

  const held: readonly (readonly [FuseForm, number, string])[] = [
    ['blade', 1.1, 'from memory'],
    ['mini', 1.1, 'maker’s mini sheet (secondary)'],
    ['maxi', 1, 'maker’s maxi sheet (secondary)'],
  ];
  test.each(held)('%s holds %f times its rating for 100 hours: %s', (form, share) => {
    expect(openingTime(share, form).least_s).toBe(Number.POSITIVE_INFINITY);
    expect(openingTime(share * 1.001, form).least_s).toBeGreaterThan(0.9 * 360_000);
  });

  test('glass opens at 135 % within an hour and at 200 % within two minutes: a fuse guide on UL 248-14 (secondary)', () => {
    expect(openingTime(1.35, 'glass').most_s).toBe(3600);
    expect(openingTime(2, 'glass').most_s).toBe(120);
  });

  test('breaker of SAE J553: 135 % a minute to an hour, 200 % 5 to 60 s (from memory)', () => {
    expect(curveTime(1.35, breakerCurve)).toMatchObject({ least_s: 60, most_s: 3600 });
    expect(curveTime(2, breakerCurve)).toMatchObject({ least_s: 5, most_s: 60 });
  });

  test('more current never makes a fuse slower', () => {
    for (const form of ['blade', 'mini', 'maxi', 'ceramic', 'glass'] as const)
      for (let share = 1; share < 40; share *= 1.02) {
        const [slow, fast] = [openingTime(share, form), openingTime(share * 1.02, form)];
        for (const name of ['least_s', 'mean_s', 'most_s'] as const) expect(fast[name]).toBeLessThanOrEqual(slow[name]);
        expect(slow.least_s).toBeLessThanOrEqual(slow.mean_s);
        expect(slow.mean_s).toBeLessThanOrEqual(slow.most_s);
      }
  });
});

// Onderdonk and Preece, both from memory; rtol: the digits printed (76 of 76.4).
test.each([
  [0.823, 76, 239, 83],
  [1.309, 120, 380, 117],
  [2.081, 191, 604, 166],
  [3.309, 304, 961, 235],
])('a link of %f mm² melts with %f A in 10 s, %f A in 1 s, %f A in the long run (from memory)', (mm2, ten, one, steady) => {
  close(meltingTime_s(ten, mm2), 10, 0.02);
  close(meltingTime_s(one, mm2), 1, 0.02);
  close(steadyMelting_A(mm2), steady, 0.01);
});

describe('in a circuit', () => {
  const shorted = (parts: string) =>
    circuitOf(`G1: { kind: supply, voltage: 12 V, resistance: 0.05 Ω }\n${parts}`, ['G1.+ F1.1', 'G1.- ground']);
  const behind = (ohm: number, fuse: string) =>
    circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12 V }
  F1: { kind: ${fuse}, resistance: 1 mΩ }
  R1: { kind: resistor, resistance: ${ohm} Ω }
wires:
  - { from: G1.+, to: F1.1 }
  - { from: F1.2, to: R1.1 }
  - { from: R1.2, to: ground }
  - { from: G1.-, to: ground }
`);
  test('a 10 A blade fuse holds 13 A and is open at 14 A: 135 % by maker’s sheets (secondary)', () => {
    expect(solved(behind(12 / 13, 'fuse, rating: 10 A')).amps('F1')).toBeGreaterThan(12.9);
    expect(solved(behind(12 / 14, 'fuse, rating: 10 A')).amps('F1')).toBe(0);
  });

  test('of two fuses in series on a short, the smaller one opens and the bigger one holds', () => {
    const circuit = shorted('F1: { kind: fuse, rating: 30 A }\nF2: { kind: fuse, rating: 10 A }\nJ1: { kind: splice }');
    const wired = { ...circuit, attached: [...circuit.attached, ['F1.2', 'F2.1'], ['F2.2', 'ground']] as [string, string][] };
    const at = solved(wired);
    expect(at.point.states.get('F2')).toEqual({ blown: true });
    expect(at.point.states.get('F1')).toEqual({ blown: false });
    expect(at.point.chatters).toEqual([]);
  });

  test('type 1 chatters on a lasting overload, type 2 and 3 stay open: SAE J553 by a description (secondary)', () => {
    expect(solved(behind(0.5, 'circuit-breaker, type: 1, rating: 10 A')).point.chatters).toEqual(['F1']);
    for (const type of [2, 3]) {
      const at = solved(behind(0.5, `circuit-breaker, type: ${type}, rating: 10 A`));
      expect(at.point.chatters).toEqual([]);
      expect(at.point.states.get('F1')).toEqual({ open: true });
    }
  });

  test('type 2 closes once the volts are taken away, type 3 does not', () => {
    for (const [type, open] of [
      [2, false],
      [3, true],
    ] as const) {
      const circuit = behind(0.5, `circuit-breaker, type: ${type}, rating: 10 A`);
      const tripped = solved(circuit).point.states;
      const off = solved(circuit, { faults: ['G1 open'], states: tripped });
      expect(off.point.states.get('F1')).toEqual({ open });
    }
  });

  test('a wrong fuse holds what the right one would not, and a blown one is open', () => {
    const circuit = behind(12 / 20, 'fuse, rating: 10 A');
    expect(solved(circuit).amps('F1')).toBe(0);
    expect(solved(circuit, { faults: ['F1 wrong rating 30 A'] }).amps('F1')).toBeGreaterThan(19);
    expect(solved(behind(10, 'fuse, rating: 10 A'), { faults: ['F1 blown'] }).amps('F1')).toBe(0);
  });
});
