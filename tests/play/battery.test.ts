import { describe, expect, test } from 'vitest';
import { vehicle } from '../circuits/vehicle.ts';
import { bench } from './benches.ts';
import { told } from './told.ts';

const day = 86_400;

/** A battery and a steady draw. */
const drained = (battery: string, milliamperes: number, ambient = 20) =>
  bench(
    `G2: { kind: current-supply, current: ${milliamperes} mA }`,
    'G1.+ -> G2.-\nG2.+ -> ground',
    `{ kind: battery, ${battery} }`,
    `ambient: ${ambient} °C`,
  );

describe('charge over days', () => {
  // A maker's bulletin (secondary): ampere-hours are 0.6 times the reserve capacity in minutes; 40 % of them used, and it does not start.
  // RC 90 min and 40 mA: 54 Ah, 21.6 Ah, 22.5 days (computed from the rule).
  test('54 Ah with 40 mA have lost 40 % after 22.5 days', () => {
    expect(told(drained('capacity: 54 Ah, self-discharge: 0 %', 40), 'wait 22.5 days').charge()).toBeCloseTo(0.6, 6);
  });
  // RC 100: 60 Ah, 24 Ah to no start; 1 A 1 day, 0.5 A 2 days, 250 mA 4 days, 100 mA 10 days, 50 mA 20 days (computed from the same rule).
  test.each([
    [1000, 1],
    [500, 2],
    [250, 4],
    [100, 10],
    [50, 20],
  ])('60 Ah with %f mA have lost 24 Ah after %f days', (milliamperes, days) => {
    expect(told(drained('capacity: 60 Ah, self-discharge: 0 %', milliamperes), `wait ${days} days`).charge()).toBeCloseTo(0.6, 6);
  });
  // 3 to 5 % a month at 20 °C (handbook copies, secondary), twice as fast for 10 K (common practice, no source).
  test('alone it loses 3 to 5 % in a month at 20 °C, twice that at 30 °C, half at 10 °C', () => {
    const lost = (ambient: number) => 1 - told(drained('capacity: 50 Ah', 1e-6, ambient), 'wait 30 days').charge();
    expect(lost(20)).toBeGreaterThan(0.03);
    expect(lost(20)).toBeLessThan(0.05);
    expect(lost(30) / lost(20)).toBeCloseTo(2, 3);
    expect(lost(10) / lost(20)).toBeCloseTo(0.5, 3);
  });
  // Charts of two makers, 27 °C (secondary): 12.65 V full, 12.24 V at half.
  test('its volts at rest follow the chart down', () => {
    const { volts } = told(drained('capacity: 50 Ah, self-discharge: 0 %', 100, 27), 'wait 250 h');
    expect(volts('G1.+', 0)).toBeCloseTo(12.65, 2);
    expect(volts('G1.+')).toBeCloseTo(12.24, 2);
  });
  // Peukert: not to be used for mA drains (a calculator's note, secondary). Ampere-hours count as they are.
  test('half the current takes twice as long: no Peukert exponent at these currents', () => {
    const left = (milliamperes: number, days: number) =>
      told(drained('capacity: 50 Ah, self-discharge: 0 %', milliamperes), `wait ${days} days`).charge();
    expect(left(200, 4)).toBeCloseTo(left(100, 8), 9);
  });
});

describe('a flat battery', () => {
  const circuit = bench(
    'E1: { kind: lamp, power: 21 W }\nK1: { kind: relay, form: make }\nE2: { kind: lamp, power: 5 W }',
    'G1.+ -> E1.1\nE1.2 -> ground\nG1.+ -> K1.86\nK1.85 -> ground\nG1.+ -> K1.30\nK1.87 -> E2.1\nE2.2 -> ground',
    '{ kind: battery, capacity: 10 Ah, self-discharge: 0 % }',
  );
  const { charge, times, at, volts, is } = told(circuit, 'wait 10 h');
  test('is flat when what it held has been drawn, and stays at nothing', () => {
    const flat = times('G1', 'flat')[0]! / 3600;
    // 21 W and 5 W lamps and a coil of 85 Ω draw about 2.3 A (computed): 10 Ah last 4.3 h.
    expect(flat).toBeGreaterThan(4);
    expect(flat).toBeLessThan(4.6);
    expect(charge()).toBe(0);
  });
  test('its volts collapse and no current is left', () => {
    expect(volts('G1.+')).toBeLessThan(0.1);
    expect(at(10 * 3600).loads.every((l) => l.amperes < 2e-4)).toBe(true);
    expect([is('E1'), is('E2')]).toEqual(['dead', 'dead']);
    expect(times('K1', 'no longer pulled')).toHaveLength(1);
  });
  test('takes charge again from a jumper lead, and gives again', () => {
    const twin = bench(
      'G2: { kind: supply, voltage: 14.4 V, resistance: 10 mΩ }\nS1: { kind: switch, rest: closed }\nE1: { kind: lamp, power: 21 W }',
      'G1.+ -> S1.1\nS1.2 -> E1.1\nE1.2 -> ground\nG2.- -> ground',
      '{ kind: battery, capacity: 10 Ah }',
    );
    const story = told(twin, 'wait 8 h, bridge G2.+ G1.+ 2 h, unbridge G2.+ G1.+ 10 min');
    expect(story.times('G1', 'flat')).toHaveLength(1);
    expect(story.times('G1', 'no longer flat')).toHaveLength(1);
    expect(story.is('E1')).toBe('works');
    expect(story.charge()).toBeGreaterThan(0.1);
  });
});

// Trade fact: radio or other accessories live with the key out, battery flat in days (common practice, no source).
describe('accessory contact stuck closed', () => {
  const { times, charge, is, volts } = told(vehicle('light-van').circuit, 'key out 21 days', ['S1.30-75 stuck closed']);
  test('the radio plays with the key out until the battery is flat, in 2 to 3 days', () => {
    const flat = times('G1', 'flat')[0]! / day;
    // 50 Ah over 0.9 A of the radio (the file) and some milliamperes: 55 h, 2.3 days (computed).
    expect(flat).toBeGreaterThan(2.1);
    expect(flat).toBeLessThan(2.4);
    expect(is('A1', (flat - 0.1) * day)).toBe('works');
  });
  test('and it ends flat, not under that', () => {
    expect(charge()).toBe(0);
    expect(is('A1')).toBe('dead');
    expect(volts('G1.+')).toBeLessThan(0.1);
  });
  test('the healthy van stands three weeks and starts', () => {
    const healthy = told(vehicle('light-van').circuit, 'key out 21 days, ON 1 s, START 1.5 s, release 3 s');
    expect(healthy.engine()).toBe('runs');
    // 9 mA for 21 days are 4.5 Ah of 50 (computed), and 4 % a month by itself: 88 % are left.
    expect(healthy.charge()).toBeGreaterThan(0.86);
    expect(healthy.charge()).toBeLessThan(0.9);
  });
});

describe('charging', () => {
  test('a running engine puts back what a start took', () => {
    const van = vehicle('light-van').circuit;
    const start = told(van, 'ON 1 s, START 2 s, release 5 s', ['G1 flat 70 %']);
    const hour = told(van, 'wait 1 h', ['G1 flat 70 %'], start.played.end);
    expect(start.charge()).toBeLessThan(0.7);
    expect(hour.charge()).toBeGreaterThan(0.75);
    expect(hour.engine()).toBe('runs');
  });
  test('no charge goes over full', () => {
    expect(told(vehicle('light-van').circuit, 'ON 1 s, START 2 s, release 2 days').charge()).toBeLessThanOrEqual(1);
  });
});
