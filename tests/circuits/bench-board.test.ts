import { expect, test } from 'vitest';
import { vehicle } from './vehicle.ts';

const board = vehicle('bench-board');
const healthy = board.table();

// What a technician expects of each load at OFF, ACC, ON, START. Common practice, no source: accessories off in START, 15 on in ON and START.
test.each([
  ['M1', 'dead dead dead works', 'starter only in START'],
  ['E1', 'dead dead dead works', 'its load lamp with it'],
  ['T1', 'dead dead works works', 'ignition in ON and START'],
  ['H1', 'dead dead works works', 'charge lamp at 15'],
  ['H2', 'dead dead works works', 'oil lamp at 15'],
  ['A1', 'dead works works dead', 'radio off in START, 75 opens before 50 closes'],
  ['E2', 'dead works works dead', 'blower off in START'],
  ['E3', 'works works works works', 'interior lamp by the door in every position'],
  ['engine', 'still still runs cranks', 'spark in ON, starter in START'],
])('%s: %s (%s)', (load, cells) => {
  expect(healthy.row(load)).toBe(cells);
});

test('the ballast leaves the coil lamp a good half of the volts in ON, the bypass relay gives it all but the drops in START', () => {
  // By hand: 10 W lamp, I = 0.83 A·(V/12)^0.55, with 8.2 Ω at 12.6 V: V = 7.4 V. In START K2 joins F2 to T1.
  const on = board.at('ON').volts('T1.1', 'T1.2');
  expect(on).toBeGreaterThan(6.8);
  expect(on).toBeLessThan(8);
  expect(board.at('START').volts('T1.1', 'T1.2')).toBeGreaterThan(11.8);
});

test('key-off current is the memory of the radio', () => {
  expect(board.at('OFF').amps('F1.1')).toBeCloseTo(0.005, 3);
});

test('door left open: 5 W more, 0.42 A at 12 V', () => {
  // The lamp gets 12.6 V: 0.417 A·(12.6/12)^0.55 = 0.43 A.
  const stuck = board.at('OFF', 'S4 stuck closed').amps('F1.1');
  expect(stuck).toBeGreaterThan(0.41);
  expect(stuck).toBeLessThan(0.45);
});

test('S1.30-15 open at ON: coil and both lamps dead in ON, alive in START and between the two', () => {
  const faulty = board.table('S1.30-15 open at ON');
  for (const load of ['T1', 'H1', 'H2']) expect(faulty.row(load)).toBe('dead dead dead works');
  for (const load of ['M1', 'A1', 'E2', 'E3']) expect(faulty.row(load)).toBe(healthy.row(load));
  expect(board.at('between ON and START', 'S1.30-15 open at ON').is('T1')).toBe('works');
});

test('ballast open: coil lamp dark in ON only, warning lamps as before', () => {
  const faulty = board.table('R1 open');
  expect(faulty.row('T1')).toBe('dead dead dead works');
  expect(faulty.row('H1')).toBe(healthy.row('H1'));
});

test('4.7 Ω in the feed of the key switch: full volts at S1.30 while nothing draws, less with every load', () => {
  const fault = 'W4a 4.7 Ω';
  const off = board.at('OFF', fault).volts('S1.30');
  const acc = board.at('ACC', fault).volts('S1.30');
  const on = board.at('ON', fault).volts('S1.30');
  expect(off).toBeGreaterThan(12.5);
  // About 1 A of radio and blower lamp cost some 4 V there; coil and warning lamps more.
  expect(acc).toBeLessThan(10);
  expect(on).toBeLessThan(acc - 0.7);
  // The start side hangs on F4: the starter turns as before if only K1 pulls.
  expect(board.at('START', fault).volts('K1.30')).toBeGreaterThan(12);
});

test('10 Ω in the minus bus: only what hangs on the right bus suffers, and that bus rises above the left', () => {
  const fault = 'W3 10 Ω';
  const start = board.at('START', fault);
  expect(start.is('E1')).not.toBe('works');
  expect(start.volts('J1.1')).toBeGreaterThan(3);
  expect(start.is('H1')).toBe('works');
  expect(start.is('H2')).toBe('works');
  expect(board.at('ACC', fault).is('E2')).toBe('works');
});

test('lost motion of 18°: every detent gives what the one before should', () => {
  // ACC at 30° leaves the switch at 12°, ON at 42°, START at 72°: nothing, 75 alone, 15 alone.
  const lagging = board.table('S1 lost motion 18°');
  expect(lagging.row('A1')).toBe('dead dead works dead');
  expect(lagging.row('H1')).toBe('dead dead dead works');
  expect(lagging.row('M1')).toBe('dead dead dead dead');
});

test('accessory contact stuck closed: radio and blower live with the key out (common practice, no source)', () => {
  expect(board.at('key out', 'S1.30-75 stuck closed').is('A1')).toBe('works');
  expect(board.at('key out').is('A1')).toBe('dead');
});

test('start contact that comes and goes: starter works or not in START, nothing else moves', () => {
  const faulty = board.table('S1.30-50 comes and goes 40 %');
  expect(faulty.cell('M1', 'START').sometimes).toMatchObject({ verdict: 'dead', share: 0.4 });
  expect(faulty.changed()).toEqual(expect.arrayContaining(['M1', 'E1', 'engine']));
  expect(faulty.changed()).not.toContain('H1');
});

test('backfeed by a jumper from the main fuse to the 15 fuse: ignition and warning lamps live in OFF', () => {
  const bridged = board.at('OFF, bridged F1.2 F2.2');
  for (const load of ['T1', 'H1', 'H2']) expect(bridged.is(load)).toBe('works');
});

test('the charge lamp feeds the field: its current goes through the field resistor', () => {
  // 2 W at 12 V is 0.167 A; 10 Ω take 1.6 V of 12.6 V.
  const on = board.at('ON');
  expect(on.amps('H1.1')).toBeCloseTo(on.amps('R2.1'), 9);
  expect(on.amps('R2.1')).toBeGreaterThan(0.15);
  expect(on.volts('R2.1', 'R2.2')).toBeGreaterThan(1.4);
  expect(on.volts('R2.1', 'R2.2')).toBeLessThan(2);
});
