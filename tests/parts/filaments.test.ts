import { expect, test } from 'vitest';
import { filament, selfHeating } from '../../src/circuit/laws.ts';
import { circuitOf, solved } from './solved.ts';

/** Half a unit of the last printed digit. */
const half = (digits: number) => 0.5001 * 10 ** -digits;

const rerating =
  'lamp rerating: current over the 0.55th power of the volts, en.wikipedia.org/wiki/Lamp_rerating (secondary), computed from it';

const ratios = [
  { share: 0.9, current: 0.944, source: rerating },
  { share: 0.8, current: 0.885, source: rerating },
  { share: 0.7, current: 0.822, source: rerating },
  { share: 0.5, current: 0.683, source: rerating },
];
test.each(ratios)('current of a lamp at $share of its volts is $current of rated: $source', ({ share, current }) => {
  for (const watt of [1.2, 5, 21, 55, 60])
    expect(Math.abs(filament(watt, 12)(12 * share).ampere / (watt / 12) - current)).toBeLessThan(half(3) + 1e-5); // the cold end bends the curve by less than 1e-5
});
test.each(ratios)('power of a lamp at $share of its volts is that share to the power of 1.55: $source', ({ share }) => {
  const watt = filament(21, 12)(12 * share).ampere * 12 * share;
  expect(Math.abs(watt / 21 / share ** 1.55 - 1)).toBeLessThan(1e-4); // the cold end bends the curve by less
});

const rated = [
  {
    watt: 21,
    at: 12,
    volts: 13.5,
    most: 26.5,
    expected: 25.2,
    source: 'UN R37: a 21 W lamp takes 26.5 W at 13.5 V at most (from memory), 25.2 W computed by the 1.55th power',
  },
  {
    watt: 55,
    at: 12,
    volts: 13.2,
    most: 68,
    expected: 63.8,
    source: 'UN R37: H1 and H3 take 68 W at 13.2 V at most (from memory), 63.8 W computed by the 1.55th power',
  },
];
test.each(rated)('$watt W lamp at $volts V: $source', ({ watt, at, volts, most, expected }) => {
  const taken = filament(watt, at)(volts).ampere * volts;
  expect(taken).toBeLessThan(most);
  expect(Math.abs(taken - expected)).toBeLessThan(half(1));
});

test('cold filament has a tenth of its hot resistance: kfz-tech.de, Gluehlampe (secondary)', () => {
  expect(filament(21, 12)(0).siemens).toBeCloseTo(10 / (144 / 21), 9);
  expect(1 / filament(21, 12)(0).siemens).toBeGreaterThan(0.4);
  expect(1 / filament(55, 12)(0).siemens).toBeCloseTo(0.26, 2); // about 0.2 Ω measured: deviceschematic.com, protection of car bulbs (secondary)
});

const series = 'P21W as 25 W at 13.5 V behind a resistance, supply 13.5 V: worked example computed from I ~ V^0.55';
const behind = [
  { ohm: 0.1, volts: 13.32, amps: 1.84, light: 0.95 },
  { ohm: 0.5, volts: 12.61, amps: 1.78, light: 0.79 },
  { ohm: 1, volts: 11.78, amps: 1.72, light: 0.63 },
  { ohm: 2, volts: 10.31, amps: 1.6, light: 0.4 },
].map((row) => ({ ...row, source: series }));
test.each(behind)('$ohm Ω in series leaves $volts V, $amps A: $source', ({ ohm, volts, amps, light }) => {
  const circuit = circuitOf(
    `G1: { kind: supply, voltage: 13.5 V }
R1: { kind: resistor, resistance: ${ohm} Ω }
H1: { kind: lamp, power: 25 W, at: 13.5 V }`,
    ['G1.+ R1.1', 'R1.2 H1.1', 'H1.2 ground', 'G1.- ground'],
  );
  const { volts: between, amps: through } = solved(circuit);
  expect(Math.abs(between('H1.1') - volts)).toBeLessThan(half(2));
  expect(Math.abs(through('H1') - amps)).toBeLessThan(half(2));
  expect(Math.abs((between('H1.1') / 13.5) ** 3.4 - light)).toBeLessThan(half(2) + 0.004); // light ~ V^3.4 to V^3.5
});

test('3 W test lamp behind 10 Ω at 12 V has 9.77 V and 0.223 A: worked example computed from I ~ V^0.55', () => {
  const circuit = circuitOf(
    `G1: { kind: supply, voltage: 12 V }
R1: { kind: resistor, resistance: 10 Ω }
H1: { kind: lamp, power: 3 W }`,
    ['G1.+ R1.1', 'R1.2 H1.1', 'H1.2 ground', 'G1.- ground'],
  );
  const seen = solved(circuit);
  expect(Math.abs(seen.volts('H1.1') - 9.77)).toBeLessThan(half(2));
  expect(Math.abs(seen.amps('H1') - 0.223)).toBeLessThan(half(3));
});

test('a conductor that heats itself has its rated power at its rated volts and its cold share at none', () => {
  for (const [cold, power] of [
    [0.1, 0.55],
    [0.45, 0.75],
    [1 / 3, 0.2],
  ] as const) {
    const law = selfHeating(130, 12, cold, power);
    expect(law(12).ampere * 12).toBeCloseTo(130, 9);
    expect(1 / law(0).siemens / (144 / 130)).toBeCloseTo(cold, 9);
  }
});

test('two filaments light each for itself, and in series when the common ground is lost', () => {
  const circuit = circuitOf(
    `G1: { kind: supply, voltage: 12 V }
E1: { kind: double-lamp, terminals: [54, 58, "31"], powers: [21 W, 5 W] }
E2: { kind: lamp, power: 21 W }
XE1: { kind: ground-point }`,
    ['G1.+ E1.58', 'E1.54 E2.1', 'E1.31 XE1', 'E2.2 ground', 'G1.- ground'],
  );
  const healthy = solved(circuit);
  expect(healthy.amps('E1.58')).toBeCloseTo(5 / 12, 3);
  expect(healthy.verdict('E1')).toBe('works');
  const lost = solved(circuit, { faults: ['XE1 open'] });
  // The tail filament feeds back through the stop filament into the other stop lamp: one current through all three.
  expect(lost.amps('E1.54')).toBeCloseTo(-lost.amps('E1.58'), 9);
  expect(lost.amps('E2')).toBeCloseTo(lost.amps('E1.58'), 9);
  expect(lost.amps('E2')).toBeGreaterThan(0.3);
  // One current: volts ~ (I / rated I)^(1/0.55), so each 21 W filament gets (5/21)^(1/0.55) of the small one's volts.
  expect(Math.abs(lost.volts('E1.58', 'E1.31') - 12 / (1 + 2 * (5 / 21) ** (1 / 0.55)))).toBeLessThan(0.01); // the cold end bends the curve
  expect(solved(circuit, { faults: ['E1.58 open'] }).verdict('E1')).toBe('dead');
  expect(solved(circuit, { faults: ['E1 turned round'] }).amps('E1.58')).toBeCloseTo(21 / 12, 3);
});

test('one filament burnt while both are fed makes the lamp weak', () => {
  const circuit = circuitOf('G1: { kind: supply, voltage: 12 V }\nE1: { kind: double-lamp }', [
    'G1.+ E1.56a',
    'G1.+ E1.56b',
    'E1.31 ground',
    'G1.- ground',
  ]);
  expect(solved(circuit).verdict('E1')).toBe('works');
  expect(solved(circuit, { faults: ['E1.56a open'] }).verdict('E1')).toBe('weak');
});
