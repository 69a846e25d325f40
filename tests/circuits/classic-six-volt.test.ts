import { expect, test } from 'vitest';
import { vehicle } from './vehicle.ts';

const classic = vehicle('classic-six-volt');
const healthy = classic.table();

// What a technician expects of each load at OFF, ON. Common practice, no source.
test.each([
  ['M1', 'dead works', 'starter by its push, key on'],
  ['T1', 'dead works', 'coil, points closed'],
  ['H1', 'dead works', 'charge lamp'],
  ['P1', 'dead works', 'fuel gauge'],
  ['M2', 'dead works', 'wiper'],
  ['E1', 'dead works', 'brake lamp'],
  ['Y1', 'dead works', 'direction arm'],
  ['B3', 'works works', 'horn without the key'],
  ['E4', 'works works', 'head lamps without the key'],
  ['E6', 'works works', 'interior lamp without the key'],
])('%s: %s (%s)', (load, cells) => {
  expect(healthy.row(load)).toBe(cells);
});

test('positive ground: every feed is negative to the frame', () => {
  const on = classic.at('ON');
  for (const terminal of ['G1.-', 'S1.30', 'S1.15', 'T1.15', 'F2.2']) expect(on.volts(terminal)).toBeLessThan(-5.9);
  expect(Math.abs(on.volts('G1.+'))).toBeLessThan(0.05);
});

test('no START position: the push cranks, only with the key ON', () => {
  expect(classic.at('ON, S2 on').is('M1')).toBe('works');
  expect(classic.at('OFF, S2 on').is('M1')).toBe('dead');
});

test('the coil is taken before the fuse: F2 blown, the engine runs without gauge, wiper, brake lamp, arms', () => {
  const blown = classic.table('F2 blown');
  expect(blown.cell('T1', 'ON').verdict).toBe('works');
  for (const load of ['P1', 'M2', 'E1', 'Y1', 'Y2']) expect(blown.row(load)).toBe('dead dead');
  expect(classic.at('ON', 'F2 blown').engine()).toBe('runs');
});

test('coil current with the points closed: between 4 and 5 A', () => {
  // 1.3 Ω at 6.3 V less the drops.
  const on = classic.at('ON').amps('T1.15');
  expect(-on).toBeGreaterThan(4);
  expect(-on).toBeLessThan(5);
});

test('a head lamp short goes past every fuse and shows at the ammeter', () => {
  const short = classic.at('OFF, S3 at H, bridged E4.1 ground');
  expect(Math.abs(short.amps('P2'))).toBeGreaterThan(50);
  expect(Math.abs(short.amps('F1'))).toBeLessThan(0.01);
  expect(Math.abs(short.amps('F2'))).toBeLessThan(0.01);
});

test('0.09 Ω in the key switch: 0.4 V lost, which on 6 V is 7 % and tells in every load of 15', () => {
  const worn = classic.at('ON', 'S1.30-15 0.09 Ω');
  const lost = Math.abs(worn.volts('S1.30', 'S1.15'));
  expect(lost).toBeGreaterThan(0.35);
  expect(lost).toBeLessThan(0.6);
});

test('charge lamp lights through the standing armature, goes out when the dynamo charges', () => {
  const on = classic.at('ON');
  expect(on.is('H1')).toBe('works');
  const running = classic.at('ON, engine running');
  expect(running.is('H1')).toBe('dead');
  expect(Math.abs(running.volts('G2.61', 'G2.31'))).toBeGreaterThan(6.8);
});

test('engine running: the dynamo charges, through the ammeter the other way', () => {
  const standing = classic.at('ON').amps('P2');
  const running = classic.at('ON, engine running').amps('P2');
  expect(Math.sign(running)).toBe(-Math.sign(standing));
  expect(classic.at('ON, engine running').amps('G1.+')).toBeGreaterThan(0);
});

test('evening load with the engine running is more than the dynamo gives: the battery helps, and that is normal here', () => {
  expect(classic.at('ON, engine running, S3 at H, S7 on, S8 pressed').amps('G1.+')).toBeLessThan(0);
});

test('cut-out welded: the battery drives the standing dynamo, 10 A and more with the key off', () => {
  expect(-classic.at('OFF', 'G2 cut-out stuck closed').amps('G1.+')).toBeGreaterThan(10);
});

test('key-off current: exactly nothing', () => {
  expect(Math.abs(classic.at('key out').amps('G1.+'))).toBeLessThan(1e-9);
});

test('ignition contact dead at ON: no spark, no crank by the push, lamps and horn as before', () => {
  const faulty = classic.table('S1.30-15 open at ON');
  for (const load of ['T1', 'M1', 'H1', 'P1']) expect(faulty.row(load)).toBe('dead dead');
  for (const load of ['B3', 'E4', 'E6']) expect(faulty.row(load)).toBe(healthy.row(load));
});

test('15 contact stuck closed: coil and wiper live with the key out (common practice, no source)', () => {
  const stuck = classic.at('key out, S7 on', 'S1.30-15 stuck closed');
  expect(stuck.is('T1')).toBe('works');
  expect(stuck.is('M2')).toBe('works');
});

test('crank drop: battery of 6 V stays over 4.8 V, half of the 9.6 V of a 12 V load test', () => {
  const crank = classic.at('ON, S2 on');
  expect(crank.volts('G1.+', 'G1.-')).toBeGreaterThan(4.8);
  expect(crank.is('T1')).not.toBe('dead');
});
