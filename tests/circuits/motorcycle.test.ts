import { expect, test } from 'vitest';
import { vehicle } from './vehicle.ts';

const bike = vehicle('motorcycle');
const healthy = bike.table();

// What a technician expects of each load at P, LOCK, OFF, ON. Common practice, no source.
test.each([
  ['M1', 'dead dead dead works', 'starter by the button, key in ON'],
  ['T1', 'dead dead dead works', 'coil'],
  ['E1', 'dead dead dead works', 'headlamp burns in ON'],
  ['E2', 'works dead dead works', 'tail lamp in P and ON'],
  ['E3', 'works dead dead works', 'instrument lamp in P and ON'],
  ['H1', 'dead dead dead works', 'neutral lamp'],
  ['E4', 'dead dead dead works', 'brake lamp'],
  ['B1', 'dead dead dead works', 'horn'],
])('%s: %s (%s)', (load, cells) => {
  expect(healthy.row(load)).toBe(cells);
});

test('the key has no START: the button cranks in neutral', () => {
  expect(bike.at('ON, S3 on').is('M1')).not.toBe('dead');
  expect(bike.at('ON').is('M1')).toBe('dead');
  expect(bike.at('ON, S3 on').engine()).toBe('cranks');
});

test('kill switch off: no spark and no crank, lights as before', () => {
  const killed = bike.at('ON, S3 on, S2 on');
  expect(killed.is('T1')).toBe('dead');
  expect(killed.is('M1')).toBe('dead');
  expect(killed.is('E1')).toBe('works');
  expect(killed.is('E4')).toBe(bike.at('ON, S3 on').is('E4'));
});

test('in gear the starter works only with the clutch pulled and the stand up', () => {
  expect(bike.at('ON, S3 on, S5 in gear').is('M1')).toBe('dead');
  expect(bike.at('ON, S3 on, S5 in gear, S4 pressed').is('M1')).not.toBe('dead');
  expect(bike.at('ON, S3 on, S5 in gear, S4 pressed, S6 on').is('M1')).toBe('dead');
});

test('neutral lamp stays dark in gear with the clutch pulled; with V1 shorted it glows', () => {
  expect(bike.at('ON, S5 in gear, S4 pressed').is('H1')).toBe('dead');
  expect(bike.at('ON, S5 in gear, S4 pressed', 'V1 shorted').is('H1')).toBe('works');
});

test('stand down: spark in neutral, none in gear', () => {
  expect(bike.at('ON, S6 on').is('T1')).toBe('works');
  expect(bike.at('ON, S5 in gear, S6 on').is('T1')).toBe('dead');
  expect(bike.at('ON, S5 in gear').is('T1')).toBe('works');
});

test('headlamp dims while cranking but stays on', () => {
  const before = bike.at('ON').volts('E1.1', 'E1.2');
  const cranking = bike.at('ON, S3 on').volts('E1.1', 'E1.2');
  expect(cranking).toBeLessThan(before - 1);
  expect(bike.at('ON, S3 on').is('E1')).not.toBe('dead');
});

test('small battery: cranking takes it under 11.5 V, a sound one stays over 9.6 V', () => {
  // 9.6 V: load-test limit at 20 °C (three makers' manuals, secondary).
  const volts = bike.at('ON, S3 on').volts('G1.+', 'G1.-');
  expect(volts).toBeGreaterThan(9.6);
  expect(volts).toBeLessThan(11.5);
});

test('key in P: tail and instrument lamp 0.7 A', () => {
  // 5 W + 3.4 W at 12 V: 0.70 A.
  const amps = -bike.at('P').amps('G1.+');
  expect(amps).toBeGreaterThan(0.66);
  expect(amps).toBeLessThan(0.76);
});

test('key-off current: nothing', () => {
  expect(Math.abs(bike.at('OFF').amps('G1.+'))).toBeLessThan(0.001);
  expect(Math.abs(bike.at('LOCK').amps('G1.+'))).toBeLessThan(0.001);
});

test('main fuse gone: everything dead, the stud of the start relay live', () => {
  const gone = bike.table('F1 blown');
  for (const load of ['M1', 'T1', 'E1', 'E2', 'H1', 'B1']) expect(gone.row(load)).toBe('dead dead dead dead');
  expect(bike.at('ON', 'F1 blown').volts('K1.30')).toBeGreaterThan(12);
});

test('frame wire off: in gear all that returns to the frame is dead; in neutral it finds a way over stand switch and diode', () => {
  const off = bike.at('ON, S5 in gear', 'W4 open');
  expect(off.is('E1')).toBe('dead');
  expect(off.is('E2')).toBe('dead');
  expect(bike.at('ON', 'W4 open').amps('V2.a')).toBeGreaterThan(5);
  expect(off.volts('M1.2', 'G1.-')).toBeLessThan(0.1);
});

test('ignition contact dead at ON: no spark, no crank, tail lamp by its own contact still on', () => {
  const faulty = bike.table('S1.30-15 open at ON');
  for (const load of ['T1', 'M1', 'E1', 'H1']) expect(faulty.row(load)).toBe('dead dead dead dead');
  expect(faulty.row('E2')).toBe(healthy.row('E2'));
});

test('15 contact stuck closed: ignition, headlamp and horn live with the key out (common practice, no source)', () => {
  const stuck = bike.at('key out', 'S1.30-15 stuck closed');
  for (const load of ['T1', 'E1', 'H1']) expect(stuck.is(load)).toBe('works');
  expect(bike.at('key out').is('E1')).toBe('dead');
});

test('engine running: the magnet alternator charges without any excitation', () => {
  expect(bike.at('ON, engine running').amps('G1.+')).toBeGreaterThan(0);
});

test('start button that comes and goes: cranks sometimes, nothing else moves', () => {
  const faulty = bike.table('S3 comes and goes 40 %');
  expect(faulty.cell('M1', 'ON').sometimes).toMatchObject({ verdict: 'dead', share: 0.4 });
  for (const load of ['T1', 'E1', 'E2', 'H1', 'B1']) expect(faulty.changed()).not.toContain(load);
});
