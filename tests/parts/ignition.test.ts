import { expect, test } from 'vitest';
import { circuitOf, solved } from './solved.ts';

/** Coil, ballast and points on a supply, as in a carburettor car with 12 V. */
const kettering = (coil_ohm: number, ballast_ohm: number, supply_V: number) =>
  circuitOf(
    `G1: { kind: supply, voltage: ${supply_V} V }
S1: { kind: switch }
R1: { kind: ballast, resistance: ${ballast_ohm} Ω }
T1: { kind: coil, resistance: ${coil_ohm} Ω }
S10: { kind: points }`,
    ['G1.+ R1.1', 'R1.2 T1.15', 'G1.+ S1.1', 'S1.2 T1.15', 'T1.1 S10.1', 'S10.2 ground', 'G1.- ground'],
  );

const standing = [
  { coil: 1.5, ballast: 1.5, supply: 12.5, low: 5, high: 9, source: 'from memory: coil plus at 5 to 9 V with the points closed' },
  { coil: 1.2, ballast: 1.8, supply: 12.5, low: 4.5, high: 6.6, source: 'a truck service text (secondary): 4.5 to 6.6 V is normal' },
  { coil: 1.8, ballast: 1.2, supply: 12.5, low: 5, high: 9, source: 'from memory: coil plus at 5 to 9 V with the points closed' },
];
test.each(standing)(
  'coil $coil Ω behind $ballast Ω, points closed, works with $low to $high V: $source',
  ({ coil, ballast, supply, low, high }) => {
    const seen = solved(kettering(coil, ballast, supply));
    expect(seen.volts('T1.15')).toBeGreaterThan(low);
    expect(seen.volts('T1.15')).toBeLessThan(high);
    expect(seen.verdict('T1')).toBe('works');
  },
);

test('a ballast system of 3.0 Ω in all stands at about 4 A: common practice, no source', () => {
  expect(solved(kettering(1.5, 1.5, 12)).amps('T1')).toBeCloseTo(4, 1);
});
test('points open: no current, the coil shows the whole supply against ground', () => {
  const seen = solved(kettering(1.5, 1.5, 12), { hand: { S10: 'open' } });
  expect(seen.amps('T1')).toBe(0);
  expect(seen.volts('T1.15')).toBeCloseTo(12, 9);
  expect(seen.volts('T1.1')).toBeCloseTo(12, 9);
});
test('bypassed in START the coil gets nearly all of the volts', () => {
  expect(solved(kettering(1.5, 1.5, 10), { hand: { S1: 'on' } }).volts('T1.15')).toBeCloseTo(10, 1);
});
test('ballast open: dead in ON, alive while bypassed', () => {
  expect(solved(kettering(1.5, 1.5, 12), { faults: ['R1 open'] }).verdict('T1')).toBe('dead');
  expect(solved(kettering(1.5, 1.5, 12), { faults: ['R1 open'], hand: { S1: 'on' } }).verdict('T1')).toBe('works');
});

const edges = [
  { coil: 1.5, volts: 4.6, is: 'works' },
  { coil: 1.5, volts: 4.4, is: 'weak' },
  { coil: 1.5, volts: 2.9, is: 'dead' },
  { coil: 3.2, volts: 6.1, is: 'works' },
  { coil: 3.2, volts: 5.8, is: 'weak' },
  { coil: 3.2, volts: 3.9, is: 'dead' },
].map((row) => ({
  ...row,
  source: '4.5 V behind a ballast (service text, secondary), 6 V without (estimate), no spark below two thirds (estimate)',
}));
test.each(edges)('coil of $coil Ω at $volts V $is: $source', ({ coil, volts, is }) => {
  // The closed points take 30 mΩ of it: 1 to 2 %.
  expect(solved(kettering(coil, 1e-6, volts * (1 + 0.03 / coil))).verdict('T1')).toBe(is);
});
test('points that do not open, or a condenser shorted to ground, leave the coil with its standing current', () => {
  expect(solved(kettering(1.5, 1.5, 12), { hand: { S10: 'open' }, faults: ['S10 stuck closed'] }).amps('T1')).toBeCloseTo(4, 1);
  expect(solved(kettering(1.5, 1.5, 12), { hand: { S10: 'open' }, faults: ['S10 short to ground'] }).amps('T1')).toBeCloseTo(4, 1);
});
test('half of the turns shorted: weak, with twice the current', () => {
  const seen = solved(kettering(3.2, 1e-6, 12), { faults: ['T1 shorted turns'] });
  expect(seen.verdict('T1')).toBe('weak');
  expect(seen.amps('T1')).toBeCloseTo(7.4, 1);
});

const electronic = (supply_V: number) =>
  circuitOf(
    `G1: { kind: supply, voltage: ${supply_V} V }
S1: { kind: switch, rest: closed }
T1: { kind: coil, resistance: 0.9 Ω }
A1: { kind: ignition-module }`,
    ['G1.+ S1.1', 'S1.2 T1.15', 'S1.2 A1.15', 'T1.1 A1.1', 'A1.31 ground', 'G1.- ground'],
  );
test('an ignition module grounds the coil while it is fed, down to 6 V (estimate: 6 to 8 V)', () => {
  expect(solved(electronic(12)).verdict('T1')).toBe('works');
  expect(solved(electronic(12), { hand: { S1: 'on' } }).verdict('T1')).toBe('dead');
  expect(solved(electronic(6.1)).verdict('A1')).toBe('works');
  expect(solved(electronic(5.9)).verdict('A1')).toBe('dead');
  expect(solved(electronic(12), { faults: ['A1.15 open'] }).verdict('T1')).toBe('dead');
  expect(solved(electronic(12), { faults: ['A1.output open'] }).verdict('T1')).toBe('dead');
  expect(solved(electronic(12), { faults: ['A1.output open'] }).verdict('A1')).toBe('works');
});

const boat = (kill_ohm: number) =>
  circuitOf(
    `A1: { kind: magneto }
S1: { kind: switch }
R1: { kind: resistor, resistance: ${kill_ohm} Ω }`,
    ['A1.kill S1.1', 'S1.2 R1.1', 'R1.2 ground', 'A1.31 ground'],
  );
test('a magneto works unless its kill lead is grounded: the rule turned round', () => {
  expect(solved(boat(0.1)).verdict('A1')).toBe('works');
  expect(solved(boat(0.1), { hand: { S1: 'on' } }).verdict('A1')).toBe('dead');
  expect(solved(boat(3000), { hand: { S1: 'on' } }).verdict('A1')).toBe('weak');
  expect(solved(boat(20e3), { hand: { S1: 'on' } }).verdict('A1')).toBe('works');
  expect(solved(boat(0.1), { hand: { S1: 'on' }, faults: ['A1 kill terminal open'] }).verdict('A1')).toBe('works');
  expect(solved(boat(0.1), { faults: ['A1 dead'] }).verdict('A1')).toBe('dead');
});
