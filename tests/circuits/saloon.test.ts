import { expect, test } from 'vitest';
import { vehicle } from './vehicle.ts';

const saloon = vehicle('saloon');
const healthy = saloon.table();

// What a technician expects of each load at 0, R, ON, START. Common practice, no source.
test.each([
  ['M1', 'dead dead dead works', 'starter only in START, lever in P'],
  ['T1', 'dead dead works works', 'coil'],
  ['H1', 'dead dead works works', 'charge lamp'],
  ['A3', 'dead works works dead', 'radio drops out in START'],
  ['M4', 'dead works works dead', 'blower hangs on the load relief relay'],
  ['M5', 'dead works works dead', 'wiper too'],
  ['E13', 'dead works works dead', 'dipped beam too'],
  ['E4', 'dead works works dead', 'rear window by K7, whose coil hangs on 75'],
  ['E7', 'works works works works', 'brake lamps on 30'],
  ['B3', 'works works works works', 'horn on 30'],
  ['M3', 'works works works works', 'fan may run with the key out'],
  ['M2', 'dead dead works works', 'pump hums for 2 s at ON, and while cranking'],
  ['engine', 'still still runs cranks', 'spark and fuel in ON once it turns'],
])('%s: %s (%s)', (load, cells) => {
  // Cranking takes the battery to about 11 V: lamps may be a shade dimmer, never dead.
  expect(healthy.row(load).replace(/weak$/, 'works')).toBe(cells);
});

test('fuel pump: hums just after ON and runs with the engine; silence at ON is F4, K3, K1 or 15', () => {
  expect(saloon.at('ON').is('M2')).toBe('works');
  expect(saloon.at('ON, engine running').is('M2')).toBe('works');
  for (const fault of ['F4 blown', 'K3.coil open', 'K1.coil open', 'S1.30-15 open at ON'])
    expect(saloon.at('ON', fault).is('M2')).toBe('dead');
});

test('injection fuse blown: K1 pulls, yet injectors and pump relay are dead, so it cranks and never fires', () => {
  const blown = saloon.at('ON', 'F15 blown');
  expect(blown.volts('K1.87')).toBeGreaterThan(12);
  expect(blown.is('Y1')).toBe('dead');
  expect(blown.is('M2')).toBe('dead');
  expect(saloon.at('START', 'F15 blown').is('M1')).toBe('works');
});

test('lever in D: START is silent, K4 is not grounded; bridging the switch wakes it', () => {
  const inGear = saloon.at('START, S4 in gear');
  expect(inGear.is('M1')).toBe('dead');
  expect(inGear.volts('K4.86', 'K4.85')).toBeLessThan(0.5);
  expect(saloon.at('START, S4 in gear, bridged S4.1 ground').is('M1')).toBe('works');
});

test('the key switch is relieved: 30-R carries relay coil and radio only, under 2 A, with everything of 75 on', () => {
  // 12.6 V / 85 Ω = 0.15 A of coil, 1.5 A of radio.
  const all = saloon.at('R, S5 at 3, S6 at 1, S8 on');
  expect(all.amps('S1.30-R')).toBeGreaterThan(1.5);
  expect(all.amps('S1.30-R')).toBeLessThan(1.9);
  // Blower 14 A, wiper 4 A, coil of K7.
  expect(all.amps('K2.30')).toBeGreaterThan(16);
});

test('dead 75 family with a live radio is K2; a dead radio as well is terminal R of the key switch', () => {
  const relay = saloon.at('ON, S5 at 3', 'K2.coil open');
  expect(relay.is('M4')).toBe('dead');
  expect(relay.is('A3')).toBe('works');
  const key = saloon.at('ON, S5 at 3', 'S1.30-R open');
  expect(key.is('M4')).toBe('dead');
  expect(key.is('A3')).toBe('dead');
});

test('K2 welded: blower live with the key out, radio not', () => {
  const welded = saloon.at('key out, S5 at 3', 'K2 contact stuck closed');
  expect(welded.is('M4')).toBe('works');
  expect(welded.is('A3')).toBe('dead');
  // By its rated draw: 14 A at 12 V.
  expect(-welded.amps('G1.+')).toBeGreaterThan(12);
});

test('15 contact dead at ON: runs in START, dies on release, accessories as before', () => {
  const faulty = saloon.table('S1.30-15 open at ON');
  expect(faulty.row('T1')).toBe('dead dead dead works');
  expect(faulty.row('engine')).toBe('still still still cranks');
  for (const load of ['M1', 'A3', 'M4', 'M5', 'E13', 'E7', 'B3', 'M3']) expect(faulty.row(load)).toBe(healthy.row(load));
  expect(saloon.at('between ON and START', 'S1.30-15 open at ON').is('T1')).toBe('works');
});

test('parking lamps: left lever in 0 lights the left side only, about 0.9 A, and it is off in ON', () => {
  const parked = saloon.at('0, S12 left');
  expect(parked.is('E9')).not.toBe('dead');
  expect(parked.is('E10')).toBe('dead');
  // 10 W at 12 V behind a diode: about 0.8 A.
  expect(parked.amps('S1.30-P')).toBeGreaterThan(0.7);
  expect(parked.amps('S1.30-P')).toBeLessThan(1);
  expect(saloon.at('ON, S12 left').is('E9')).toBe('dead');
});

test('key-off current: radio 5, clock 6, control unit 2, alternator 1 mA', () => {
  expect(-saloon.at('key out').amps('G1.+')).toBeCloseTo(0.014, 3);
});

test('charge lamp gone: the resistor beside it still excites the alternator', () => {
  // 68 Ω and a rotor of 3.4 Ω: 12.6/71.4 = 0.18 A.
  const on = saloon.at('ON', 'H1 open');
  expect(on.amps('R2.1')).toBeGreaterThan(0.15);
  expect(on.amps('R2.1')).toBeLessThan(0.2);
  expect(saloon.at('ON, engine running', 'H1 open').amps('G1.+')).toBeGreaterThan(0);
});

test('engine running: lamp dark, battery charged, alternator supplies', () => {
  const runs = saloon.at('ON, engine running');
  expect(runs.is('H1')).toBe('dead');
  expect(runs.amps('G1.+')).toBeGreaterThan(0);
});

test('key buzzer: only with the key in the lock and the driver’s door open', () => {
  expect(saloon.at('0, S16 open').is('B8')).toBe('works');
  expect(saloon.at('key out, S16 open').is('B8')).toBe('dead');
  expect(saloon.at('0').is('B8')).toBe('dead');
});

test('boot ground lifted: brake lamps, reversing lamps, pump and rear window suffer together', () => {
  const lifted = saloon.at('ON, S13 pressed', 'XE4 2 Ω');
  expect(lifted.is('E7')).not.toBe('works');
  expect(lifted.volts('E7.2')).toBeGreaterThan(3);
  expect(lifted.is('E13')).toBe(saloon.at('ON, S13 pressed').is('E13'));
});

test('accessory contact stuck closed: radio and blower live with the key out and in START (common practice, no source)', () => {
  const fault = 'S1.30-R stuck closed';
  expect(saloon.at('key out', fault).is('A3')).toBe('works');
  expect(saloon.at('key out, S5 at 3', fault).is('M4')).toBe('works');
  expect(saloon.table(fault).cell('A3', 'START').verdict).toBe('works');
});

test('start contact that comes and goes: cranks sometimes, the rest stays (common practice, no source)', () => {
  const faulty = saloon.table('S1.30-50 comes and goes 40 %');
  expect(faulty.cell('M1', 'START').sometimes).toMatchObject({ verdict: 'dead', share: 0.4 });
  for (const load of ['A3', 'T1', 'E7', 'M4']) expect(faulty.changed()).not.toContain(load);
});
