import { expect, test } from 'vitest';
import { vehicle } from './vehicle.ts';

const truck = vehicle('truck');
const healthy = truck.table();

// What a technician expects of each load at 0, R, ON, START. Common practice, no source.
test.each([
  ['M1', 'dead dead dead works', 'starter'],
  ['H1', 'dead dead works works', 'charge lamp'],
  ['H2', 'dead dead works works', 'oil lamp, engine standing'],
  ['M2', 'dead works works dead', 'blower by K3, off in START'],
  ['A1', 'dead works works dead', 'radio by K3'],
  ['M3', 'dead dead works works', 'wiper by K2'],
  ['E2', 'works works works works', 'dipped beams behind the isolator only'],
  ['E4', 'works works works works', 'brake lamps'],
  ['P2', 'works works works works', 'tachograph before the isolator'],
  ['Y1', 'dead dead dead dead', 'stop solenoid: energised only to stop a turning engine'],
  ['engine', 'still still runs cranks', 'stops with the key at 0'],
])('%s: %s (%s)', (load, cells) => {
  // Cranking takes the batteries to about 22 V: lamps may be a shade dimmer, never dead.
  expect(healthy.row(load).replace(/weak$/, 'works')).toBe(cells);
});

test('isolator off: everything dead but tachograph and radio memory, by design', () => {
  const off = truck.at('ON, S8 on');
  for (const load of ['H1', 'H2', 'M3', 'E2', 'E4', 'M1']) expect(off.is(load)).toBe('dead');
  expect(off.is('P2')).toBe('works');
  // Tachograph 40 mA and radio memory 15 mA.
  expect(-truck.at('key out, S8 on').amps('G1.+')).toBeCloseTo(0.055, 3);
});

test('isolator on: its relay coil is most of the key-off current', () => {
  // 25.2 V over 60 Ω: 0.42 A; with tachograph, radio memory and alternator leakage 0.476 A.
  const amps = -truck.at('key out').amps('G1.+');
  expect(amps).toBeGreaterThan(0.45);
  expect(amps).toBeLessThan(0.5);
});

test('the key switch carries less than 1.5 A in every position with everything on', () => {
  for (const key of ['R', 'ON', 'START'])
    expect(truck.at(`${key}, S7 on, S9 on, S5 on, S10 at 2, S11 pressed`).amps('S1.30'), key).toBeLessThan(1.5);
});

test('START is locked while D+ is up: K4 opens the chain', () => {
  const running = truck.at('ON, engine running').next('START, engine running');
  expect(running.is('M1')).toBe('dead');
  expect(running.volts('K4.86', 'K4.85')).toBeGreaterThan(20);
});

test('D+ wire shorted to plus: no crank ever, and the charge lamp dark: both point to D+', () => {
  const bridged = 'bridged G3.D+ G3.B+';
  expect(truck.at(`START, ${bridged}`).is('M1')).toBe('dead');
  expect(truck.at(`ON, ${bridged}`).is('H1')).toBe('dead');
});

test('gear or cab lock open: START is silent', () => {
  expect(truck.at('START, S2 in gear').is('M1')).toBe('dead');
  expect(truck.at('START, S3 on').is('M1')).toBe('dead');
  expect(truck.at('START').is('M1')).toBe('works');
});

test('key to 0 with the engine running: the stop solenoid pulls, and lets go once D+ is down', () => {
  const stopping = truck.at('ON, engine running').next('0, engine running');
  expect(stopping.is('Y1')).toBe('works');
  expect(stopping.engine()).toBe('still');
  expect(stopping.next('0').is('Y1')).toBe('dead');
});

test('stop fuse blown: starts as ever, cannot be stopped by the key', () => {
  const blown = truck.table('F5 blown');
  expect(blown.row('M1')).toBe(healthy.row('M1'));
  expect(blown.row('engine')).toBe('runs runs runs cranks');
});

test('diode of the charge lamp feed shorted: D+ holds the stop relay through the lamp, the engine runs on', () => {
  const running = truck.at('ON, engine running', 'V1 shorted').next('0, engine running');
  expect(running.volts('K5.86', 'K5.85')).toBeGreaterThan(6);
  expect(running.is('Y1')).toBe('dead');
});

test('stop relay coil open: the running engine is stopped in ON as well', () => {
  expect(truck.at('ON, engine running', 'K5.coil open').is('Y1')).toBe('works');
});

test('one weak battery hides in the sum: measure each', () => {
  const weak = truck.at('0', 'G1 flat 30 %');
  // Rest volts by charge: 12.65 V full, 12.09 V at 30 % (chart, secondary).
  expect(weak.volts('G2.+', 'G1.-')).toBeGreaterThan(24.4);
  expect(weak.volts('G2.+', 'G2.-') - weak.volts('G1.+', 'G1.-')).toBeGreaterThan(0.4);
});

test('charge lamp gone: the resistor beside it still excites', () => {
  expect(truck.at('ON, engine running', 'H1 open').amps('G1.+')).toBeGreaterThan(0);
});

test('15 contact dead at ON: instruments and wiper dark, the engine is stopped there', () => {
  const faulty = truck.table('S1.30-15 open at ON');
  expect(faulty.row('H2')).toBe('dead dead dead works');
  expect(faulty.row('M3')).toBe('dead dead dead works');
  expect(faulty.row('engine')).toBe('still still still cranks');
  for (const load of ['M1', 'M2', 'A1', 'E2', 'P2']) expect(faulty.row(load)).toBe(healthy.row(load));
});

test('R contact stuck closed: blower and radio live with the key out (common practice, no source)', () => {
  expect(truck.at('key out', 'S1.30-R stuck closed').is('A1')).toBe('works');
  expect(truck.at('key out').is('A1')).toBe('dead');
});

test('start contact that comes and goes: cranks sometimes, the rest stays (common practice, no source)', () => {
  const faulty = truck.table('S1.30-50 comes and goes 40 %');
  expect(faulty.cell('M1', 'START').sometimes).toMatchObject({ verdict: 'dead', share: 0.4 });
  for (const load of ['H2', 'M2', 'E2', 'P2']) expect(faulty.changed()).not.toContain(load);
});
