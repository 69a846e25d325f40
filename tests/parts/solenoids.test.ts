import { expect, test } from 'vitest';
import { circuitOf, solved } from './solved.ts';

const stop = circuitOf(
  `G1: { kind: supply, voltage: 12.6 V, resistance: 0.01 Ω }
S1: { kind: switch }
S2: { kind: switch }
Y1: { kind: stop-solenoid }`,
  ['G1.+ S1.1', 'S1.2 Y1.P', 'G1.+ S2.1', 'S2.2 Y1.H', 'Y1.31 ground', 'G1.- ground'],
);
const both = { S1: 'on', S2: 'on' };

test("pull 0.33 Ω takes 35 to 45 A, hold 12.2 Ω about 1 A: two makers' service texts (secondary)", () => {
  const out = solved(stop, { hand: both, settles: false });
  expect(out.amps('Y1.pull')).toBeGreaterThan(35);
  expect(out.amps('Y1.pull')).toBeLessThan(45);
  const held = solved(stop, { hand: both });
  expect(held.amps('Y1.pull')).toBe(0); // its own contact has cut the pull winding
  expect(held.amps('Y1.hold')).toBeCloseTo(1.03, 2);
  expect(held.verdict('Y1')).toBe('works');
});
test('the hold winding alone never pulls, but holds what was pulled', () => {
  expect(solved(stop, { hand: { S2: 'on' } }).verdict('Y1')).toBe('dead');
  const pulled = solved(stop, { hand: both }).point.states;
  expect(solved(stop, { hand: { S2: 'on' }, states: pulled }).verdict('Y1')).toBe('works');
  expect(solved(stop, { hand: {}, states: pulled }).verdict('Y1')).toBe('dead');
});
test('pull winding open: dead from rest; hold winding open: in and out again without end', () => {
  expect(solved(stop, { hand: both, faults: ['Y1.pull open'] }).verdict('Y1')).toBe('dead');
  const beats = solved(stop, { hand: both, faults: ['Y1.hold open'] });
  expect(beats.point.chatters).toContain('Y1');
});

const valve = (volts: number) =>
  circuitOf(`G1: { kind: supply, voltage: ${volts} V }\nY1: { kind: solenoid }`, ['G1.+ Y1.1', 'Y1.2 ground', 'G1.- ground']);
test('a solenoid pulls in at 60 %, holds down to 25 % of rated volts, and is weak where it would not pull again: estimates', () => {
  const pulled = solved(valve(12)).point.states;
  const held = (volts: number) => solved(valve(volts), { states: pulled }).verdict('Y1');
  expect(solved(valve(7)).verdict('Y1')).toBe('dead');
  expect(held(7.3)).toBe('works');
  expect(held(7)).toBe('weak');
  expect(held(3.1)).toBe('weak');
  expect(held(2.9)).toBe('dead');
  expect(solved(valve(12), { faults: ['Y1 stuck'] }).verdict('Y1')).toBe('dead');
  expect(solved(valve(12), { faults: ['Y1 stuck'] }).amps('Y1')).toBeCloseTo(0.75, 9);
});

const glow = circuitOf(
  `G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
S1: { kind: switch }
A1: { kind: glow-timer }
E1: { kind: glow-plug }
E2: { kind: glow-plug }`,
  ['G1.+ A1.30', 'G1.+ S1.1', 'S1.2 A1.15', 'A1.G E1.1', 'A1.G E2.1', 'E1.2 ground', 'E2.2 ground', 'A1.31 ground', 'G1.- ground'],
);
test('glow plugs glow from the key on until the time is over, and go on while the engine cranks', () => {
  const on = { S1: 'on' };
  expect(solved(glow).verdict('E1')).toBe('dead');
  const first = solved(glow, { hand: on });
  expect(first.verdict('E1')).toBe('works');
  const over = new Map(first.point.states).set('A1', { fed: true, glowing: true, glowed: 12 });
  expect(solved(glow, { hand: on, states: over }).verdict('E1')).toBe('dead');
  expect(solved(glow, { hand: on, states: over, engine: 'cranking' }).verdict('E1')).toBe('works');
  expect(solved(glow, { hand: on, faults: ['E1 open'] }).verdict('E2')).toBe('works');
  expect(solved(glow, { faults: ['A1 contact stuck closed'] }).verdict('E1')).toBe('works');
  expect(solved(glow, { hand: on, faults: ['A1 contact open'] }).verdict('E1')).toBe('dead');
});

const wiper = circuitOf(
  `G1: { kind: supply, voltage: 12 V }
S1: { kind: multi-switch, states: { "0": [], "1": [30-53], "2": [30-53b] } }
M1: { kind: wiper-motor }`,
  ['G1.+ S1.30', 'S1.53 M1.53', 'S1.53b M1.53b', 'G1.+ M1.53a', 'M1.31 ground', 'G1.- ground'],
);
test('the wiper has two speeds, and its park switch feeds it until the blades are at rest', () => {
  expect(solved(wiper).verdict('M1')).toBe('dead');
  expect(solved(wiper, { hand: { S1: '1' } }).amps('M1.slow')).toBeCloseTo(3.5, 2);
  expect(solved(wiper, { hand: { S1: '2' } }).amps('M1.fast')).toBeCloseTo(5, 2);
  const midway = new Map([['M1', { inrush: 0, stroke: 0.5, parked: false }]]);
  expect(solved(wiper, { states: midway }).amps('M1.park')).toBeCloseTo(3.5, 1);
  const home = new Map([['M1', { inrush: 0, stroke: 1.02, parked: false }]]);
  expect(solved(wiper, { states: home }).amps('M1.park')).toBe(0);
  expect(solved(wiper, { faults: ['M1.park stuck closed'] }).verdict('M1')).toBe('works');
  expect(solved(wiper, { states: midway, faults: ['M1.park open'] }).verdict('M1')).toBe('dead');
});
