import { expect, test } from 'vitest';
import { circuitOf, solved } from './solved.ts';

const fuel = (feed_V: number) =>
  circuitOf(
    `G1: { kind: supply, voltage: ${feed_V} V }
A1: { kind: stabiliser }
P1: { kind: gauge }
B1: { kind: sender, values: { half: 90 Ω, empty: 250 Ω, full: 35 Ω } }`,
    ['G1.+ A1.1', 'A1.2 P1.1', 'P1.2 B1.1', 'B1.2 ground', 'A1.31 ground', 'G1.- ground'],
  );

test('a gauge moves once it is fed, the further the fuller the tank', () => {
  const amps = ['empty', 'half', 'full'].map((setting) => solved(fuel(12.6), { hand: { B1: setting } }).amps('P1'));
  expect(amps[0]).toBeLessThan(amps[1]!);
  expect(amps[1]).toBeLessThan(amps[2]!);
  expect(solved(fuel(12.6), { hand: { B1: 'empty' } }).verdict('P1')).toBe('works');
  expect(solved(fuel(12.6), { faults: ['B1 open'] }).verdict('P1')).toBe('dead');
  expect(solved(fuel(12.6), { faults: ['P1 open'] }).verdict('P1')).toBe('dead');
  expect(solved(fuel(0)).verdict('P1')).toBe('dead');
});

test('the stabiliser holds 10 V (from memory) from 11 to 15 V, and the gauge reads the same', () => {
  const at = (volts: number) => solved(fuel(volts));
  for (const volts of [11, 12.6, 14.4, 15]) {
    expect(at(volts).volts('A1.2')).toBeGreaterThan(9.9);
    expect(at(volts).volts('A1.2')).toBeLessThan(10.2);
  }
  expect(at(8).volts('A1.2')).toBeGreaterThan(7.8);
  expect(at(14.4).amps('P1') / at(11).amps('P1')).toBeLessThan(1.02);
});

test('a stabiliser that does not regulate lets the gauge read high', () => {
  const healthy = solved(fuel(14.4)).amps('P1');
  expect(solved(fuel(14.4), { faults: ['A1 does not regulate'] }).amps('P1') / healthy).toBeGreaterThan(1.3);
});

test('instruments with a draw of their own are judged by their volts', () => {
  const set = (volts: number) =>
    circuitOf(`G1: { kind: supply, voltage: ${volts} V }\nP1: { kind: gauge, draws: 0.35 A }`, ['G1.+ P1.1', 'P1.2 ground', 'G1.- ground']);
  expect(solved(set(12)).amps('P1')).toBeCloseTo(0.35, 9);
  expect([12, 8, 4].map((volts) => solved(set(volts)).verdict('P1'))).toEqual(['works', 'weak', 'dead']);
});

const oneWay = (parts: string, anode: string, cathode: string) =>
  circuitOf(`G1: { kind: supply, voltage: 12 V }\nV1: { ${parts} }\nH1: { kind: lamp, power: 5 W }`, [
    `G1.+ V1.${anode}`,
    `V1.${cathode} H1.1`,
    'H1.2 ground',
    'G1.- ground',
  ]);
test('a diode carries one way with about 0.7 V lost (from memory), and nothing the other way', () => {
  const ahead = solved(oneWay('kind: diode', 'a', 'k'));
  expect(ahead.verdict('H1')).toBe('works');
  expect(ahead.volts('V1.a', 'V1.k')).toBeGreaterThan(0.6);
  expect(ahead.volts('V1.a', 'V1.k')).toBeLessThan(0.8);
  const back = solved(oneWay('kind: diode', 'k', 'a'));
  expect(back.verdict('H1')).toBe('dead');
  expect(Math.abs(back.amps('H1'))).toBeLessThan(5e-6); // microamperes, as a silicon diode leaks
  expect(solved(oneWay('kind: diode', 'k', 'a'), { faults: ['V1 shorted'] }).verdict('H1')).toBe('works');
  expect(solved(oneWay('kind: diode', 'a', 'k'), { faults: ['V1 open'] }).verdict('H1')).toBe('dead');
  expect(solved(oneWay('kind: diode', 'k', 'a'), { faults: ['V1 leaks 20 mA'] }).amps('H1')).toBeCloseTo(0.02, 3);
});

test('a diode with one loose end stays at the volts of the other', () => {
  const loose = circuitOf('G1: { kind: supply, voltage: 12 V }\nV1: { kind: diode }\nH1: { kind: lamp, power: 5 W }', [
    'G1.+ V1.k',
    'G1.+ H1.1',
    'H1.2 ground',
    'G1.- ground',
  ]);
  const seen = solved(loose);
  expect(seen.amps('V1')).toBeCloseTo(0, 12);
});

test('a Zener diode holds its own volts behind a resistance', () => {
  const regulator = circuitOf(
    'G1: { kind: supply, voltage: 18 V }\nR1: { kind: resistor, resistance: 10 Ω }\nV1: { kind: zener, zener: 15 V }',
    ['G1.+ R1.1', 'R1.2 V1.k', 'V1.a ground', 'G1.- ground'],
  );
  // 3 V over 10 Ω + 0.5 Ω: 0.286 A, and half a volt per ampere above 15 V
  expect(solved(regulator).volts('V1.k')).toBeCloseTo(15.14, 1);
  expect(-solved(regulator).amps('V1')).toBeCloseTo(3 / 10.5, 2);
});
