import { expect, test } from 'vitest';
import { circuitOf, solved } from './solved.ts';

/** One load of a kind between a supply and ground, with a resistance in front of it. */
function alone(load: string, supply_V: number, before_ohm = 1e-6) {
  return circuitOf(`G1: { kind: supply, voltage: ${supply_V} V }\nR1: { kind: resistor, resistance: ${before_ohm} Ω }\nA1: { ${load} }`, [
    'G1.+ R1.1',
    'R1.2 A1.1',
    'A1.2 ground',
    'G1.- ground',
  ]);
}

const currents = [
  { load: 'kind: horn', volts: 12, low: 4, high: 4, source: 'load list of a repair text (secondary): 4 A each' },
  { load: 'kind: blower', volts: 12, low: 10, high: 14, source: 'load list of a repair text (secondary): blower 10 to 14 A at high speed' },
  { load: 'kind: pump', volts: 12, low: 4, high: 8, source: 'repair text on pump current (secondary): injection 4 to 8 A' },
  { load: 'kind: motor', volts: 12, low: 3, high: 7.5, source: 'load lists (secondary): wiper 3 to 7.5 A on wet glass' },
  { load: 'kind: glow-plug', volts: 12, low: 10, high: 12, source: 'handbook copies (secondary): 10 to 12 A steady each' },
  { load: 'kind: solenoid', volts: 12, low: 0.5, high: 1, source: 'from memory: idle cut-off valve 0.5 to 1 A' },
  { load: 'kind: led-lamp', volts: 12, low: 0.05, high: 0.2, source: 'from memory: 0.05 to 0.2 A for a 21 W place' },
  { load: 'kind: clock', volts: 12, low: 0.005, high: 0.005, source: 'from memory: 5 mA unlit' },
  { load: 'kind: heater, draws: 20 A', volts: 12, low: 13, high: 28, source: 'load lists (secondary): rear-window heater 13 to 28 A' },
  { load: 'kind: unknown-load, current: 0.1 A', volts: 12, low: 0.1, high: 0.1, source: 'the current as measured' },
  { load: 'kind: buzzer', volts: 12, low: 0.03, high: 0.03, source: 'estimate: 30 mA' },
];
test.each(currents)('$load draws $low to $high A at $volts V: $source', ({ load, volts, low, high }) => {
  const seen = solved(alone(load, volts));
  const amps = seen.amps('A1') || seen.amps('A1.motor');
  expect(amps).toBeGreaterThan(low * 0.99); // steady draws lie up to 1 % under their figure at 12 V: the knee of the law
  expect(amps).toBeLessThan(high * 1.0001);
});

const limit = "the part's own limits, estimates of the workshop";
const edges = [
  { load: 'kind: lamp, power: 21 W', volts: 9.65, is: 'works' },
  { load: 'kind: lamp, power: 21 W', volts: 9.55, is: 'weak' },
  { load: 'kind: lamp, power: 21 W', volts: 3.5, is: 'dead' },
  { load: 'kind: led-lamp', volts: 9.7, is: 'works' },
  { load: 'kind: led-lamp', volts: 9.5, is: 'weak' },
  { load: 'kind: led-lamp', volts: 8, is: 'weak' },
  { load: 'kind: led-lamp', volts: 7, is: 'dead' },
  { load: 'kind: blower', volts: 9.1, is: 'works' },
  { load: 'kind: blower', volts: 8.9, is: 'weak' },
  { load: 'kind: blower', volts: 3.5, is: 'dead' },
  { load: 'kind: heater', volts: 9.5, is: 'weak' },
  { load: 'kind: horn', volts: 5.9, is: 'dead' },
  { load: 'kind: solenoid', volts: 7.3, is: 'works' },
  { load: 'kind: solenoid', volts: 7.1, is: 'dead' },
  { load: 'kind: clock', volts: 8.3, is: 'weak' },
  { load: 'kind: glow-plug, at: 24 V', volts: 12, is: 'weak' },
].map((row) => ({ ...row, source: limit }));
test.each(edges)('$load at $volts V $is: $source', ({ load, volts, is }) => {
  expect(solved(alone(load, volts)).verdict('A1')).toBe(is);
});

test('resistance in front of a load is felt by the load: 1 Ω makes a blower weak, 12 Ω kills it', () => {
  expect(solved(alone('kind: blower', 12, 0.2)).verdict('A1')).toBe('works');
  expect(solved(alone('kind: blower', 12, 1)).verdict('A1')).toBe('weak');
  expect(solved(alone('kind: blower', 12, 12)).verdict('A1')).toBe('dead');
});

const broken = [
  'kind: lamp, power: 21 W',
  'kind: led-lamp',
  'kind: heater',
  'kind: heater, ptc: yes',
  'kind: glow-plug',
  'kind: motor',
  'kind: pump',
  'kind: solenoid',
  'kind: horn',
  'kind: buzzer',
  'kind: clock',
  'kind: gauge',
  'kind: unknown-load, current: 0.1 A',
  'kind: unknown-load, current: 0.1 A, resistance: 120 Ω',
];
test.each(broken)('%s: open inside is dead although its terminals have full volts', (load) => {
  const seen = solved(alone(load, 12), { faults: ['A1 open'] });
  expect(solved(alone(load, 12)).verdict('A1')).toBe('works');
  expect(seen.verdict('A1')).toBe('dead');
  expect(seen.volts('A1.1')).toBeCloseTo(12, 3);
});
test.each(broken)('%s: shorted inside is dead, whatever flows', (load) => {
  expect(solved(alone(load, 12), { faults: ['A1 shorted'] }).verdict('A1')).toBe(load.includes('gauge') ? 'works' : 'dead');
});
test('a seized motor draws its held current and is dead', () => {
  const seen = solved(alone('kind: pump', 12), { faults: ['A1 seized'] });
  expect(seen.amps('A1')).toBeCloseTo(25, 2);
  expect(seen.verdict('A1')).toBe('dead');
});
test('an LED lamp the wrong way round is dark, a lamp in series feeds it by leakage until it glows', () => {
  expect(solved(alone('kind: led-lamp', 12), { faults: ['A1 reversed'] }).verdict('A1')).toBe('dead');
  expect(solved(alone('kind: led-lamp', 12, 2000)).verdict('A1')).toBe('weak'); // 2 mA: glows on 1 to 5 mA (from memory)
  expect(solved(alone('kind: led-lamp', 12, 20000)).verdict('A1')).toBe('dead');
});
test('an unknown load with a resistance follows the volts, one without does not', () => {
  expect(solved(alone('kind: unknown-load, current: 0.1 A', 9)).amps('A1')).toBeCloseTo(0.1, 2);
  expect(solved(alone('kind: unknown-load, current: 0.1 A, resistance: 120 Ω', 9)).amps('A1')).toBeCloseTo(0.075, 6);
});
test('first moments: a rotor that stands takes five times, a cold glow plug 1.5 to 2.5 times (from memory), a cold PTC heater three times its steady current', () => {
  const first = (load: string) => {
    const circuit = alone(load, 12);
    const states = new Map([...solved(circuit).point.states, ['A1', { inrush: 1 }] as const]);
    return solved(circuit, { states, settles: false }).amps('A1') / solved(circuit).amps('A1');
  };
  expect(first('kind: pump')).toBeCloseTo(5, 3);
  expect(first('kind: glow-plug')).toBeGreaterThan(1.5);
  expect(first('kind: glow-plug')).toBeLessThan(2.5);
  expect(first('kind: heater, ptc: yes')).toBeCloseTo(3, 3);
  expect(first('kind: heater')).toBeCloseTo(1, 6);
});

const blower = circuitOf(
  'G1: { kind: supply, voltage: 12 V }\nS1: { kind: multi-switch, states: { "0": [], "1": [30-L], "2": [30-M], "3": [30-H] } }\nM1: { kind: blower, draws: 10 A, speeds: { L: 1.6 Ω, M: 0.6 Ω, H: 0 Ω } }',
  ['G1.+ S1.30', 'S1.L M1.L', 'S1.M M1.M', 'S1.H M1.H', 'M1.2 ground', 'G1.- ground'],
);
test('every speed of a blower works by itself, with less current the lower it is; an open pack leaves the top speed', () => {
  const at = (speed: string, ...faults: string[]) => solved(blower, { hand: { S1: speed }, faults });
  const amps = ['1', '2', '3'].map((speed) => at(speed).amps('M1.motor'));
  expect(amps[2]).toBeCloseTo(10, 1);
  expect(amps[0]).toBeLessThan(amps[1]!);
  expect(amps[1]).toBeLessThan(amps[2]!);
  expect(['0', '1', '2', '3'].map((speed) => at(speed).verdict('M1'))).toEqual(['dead', 'works', 'works', 'works']);
  expect(['1', '2', '3'].map((speed) => at(speed, 'M1.M-H open').verdict('M1'))).toEqual(['dead', 'dead', 'works']);
  expect(['1', '2', '3'].map((speed) => at(speed, 'M1.L-M open').verdict('M1'))).toEqual(['dead', 'works', 'works']);
});

const socket = circuitOf('G1: { kind: supply, voltage: 12 V }\nX1: { kind: socket, draws: 5 A }', [
  'G1.+ X1.1',
  'X1.2 ground',
  'G1.- ground',
]);
test('a socket is judged by its volts when empty and by its current when used', () => {
  expect(solved(socket).verdict('X1')).toBe('works');
  expect(solved(socket).amps('X1')).toBe(0);
  expect(solved(socket, { hand: { X1: 'used' } }).amps('X1')).toBeCloseTo(5, 6);
  expect(solved(socket, { hand: { X1: 'used' }, faults: ['X1 open'] }).verdict('X1')).toBe('dead');
});

const radio = (memory: string, main: string) =>
  circuitOf(`G1: { kind: supply, voltage: ${memory} V }\nG2: { kind: supply, voltage: ${main} V }\nA1: { kind: radio }`, [
    'G1.+ A1.30',
    'G2.+ A1.75',
    'A1.31 ground',
    'G1.- ground',
    'G2.- ground',
  ]);
test.each([
  { memory: '12', main: '12', is: 'works' },
  { memory: '0', main: '12', is: 'weak' },
  { memory: '12', main: '0', is: 'dead' },
  { memory: '12', main: '8.5', is: 'weak' },
  { memory: '12', main: '7', is: 'dead' },
])('radio with $memory V on 30 and $main V on 75 $is: estimate, resets below 7 to 9 V', ({ memory, main, is }) => {
  expect(solved(radio(memory, main)).verdict('A1')).toBe(is);
});
test("radio memory takes 7 mA: a maker's key-off table (secondary)", () => {
  expect(solved(radio('12', '0')).amps('A1.30')).toBeCloseTo(0.007, 3);
});
