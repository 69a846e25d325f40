import { expect, test } from 'vitest';
import { vehicle } from './vehicle.ts';

const boat = vehicle('boat');
const healthy = boat.table();

// What a technician expects of each load at OFF, ON, START. Common practice, no source.
test.each([
  ['M1', 'dead dead works', 'starter, control box in neutral'],
  ['A1', 'dead works works', 'magneto: killed in OFF only'],
  ['Y1', 'dead works works', 'primer, key pushed in'],
  ['M2', 'dead works works', 'trim motor'],
  ['P1', 'dead works works', 'gauges'],
  ['E1', 'dead works works', 'navigation lamps'],
  ['M3', 'works works works', 'bilge pump does not ask key or battery switch'],
  ['engine', 'still runs cranks', 'stops by the closed pair in OFF'],
])('%s: %s (%s)', (load, cells) => {
  expect(healthy.row(load)).toBe(cells);
});

test('the stop pair is closed in OFF and open in ON and START', () => {
  const ohms = (key: string) => boat.at(key).point.siemens[boat.at(key).point.network.branchOf.get('S1.M1-M2')!]!;
  expect(ohms('OFF')).toBeGreaterThan(0);
  expect(ohms('ON')).toBe(0);
  expect(ohms('START')).toBe(0);
});

test('key switch unplugged or stop wire broken: spark everywhere, the engine cannot be stopped by the key', () => {
  for (const fault of ['W14a open', 'S1.M1-M2 open', 'W15 open']) {
    expect(boat.table(fault).row('A1'), fault).toBe('works works works');
    expect(boat.table(fault).row('engine'), fault).toBe('runs runs cranks');
  }
});

test('the lanyard still kills with the stop pair of the key open, not with the stop wire open', () => {
  expect(boat.at('ON, S2 on').is('A1')).toBe('dead');
  expect(boat.at('ON, S2 on', 'S1.M1-M2 open').is('A1')).toBe('dead');
  expect(boat.at('ON, S2 on', 'W14a open').is('A1')).toBe('works');
});

test('stop wire chafed to ground: cranks well, no spark anywhere, gauges normal', () => {
  const faulty = boat.table('W14a short to ground');
  expect(faulty.row('A1')).toBe('dead dead dead');
  for (const load of ['M1', 'P1', 'E1', 'M2']) expect(faulty.row(load)).toBe(healthy.row(load));
});

test('a stop pair that stays closed in ON kills the spark there and leaves the rest', () => {
  const faulty = boat.table('S1.M1-M2 stuck closed');
  expect(faulty.row('A1')).toBe('dead dead dead');
  expect(faulty.row('M1')).toBe(healthy.row('M1'));
});

test('dead battery: no crank, no gauges, yet spark in ON: it can be started by the rope', () => {
  const flat = boat.at('ON', 'G1 open');
  expect(flat.is('P1')).toBe('dead');
  expect(flat.is('A1')).toBe('works');
  expect(flat.engine()).toBe('runs');
});

test('out of neutral: START gives silence', () => {
  expect(boat.at('START, S3 in gear').is('M1')).toBe('dead');
});

test('harness fuse gone: no crank, no gauges, no trim; a running engine keeps its spark and the clip still kills', () => {
  const gone = boat.table('F1 blown');
  for (const load of ['M1', 'P1', 'E1', 'M2']) expect(gone.row(load)).toBe('dead dead dead');
  expect(gone.cell('A1', 'ON').verdict).toBe('works');
  expect(boat.at('ON, S2 on', 'F1 blown').is('A1')).toBe('dead');
});

test('X1.1 fretted to 1 Ω: gauges live at ON, the feed collapses by volts in START', () => {
  const fault = 'X1.1 1 Ω';
  expect(boat.at('ON', fault).is('P1')).toBe('works');
  expect(boat.at('ON', fault).volts('X1.1a', 'X1.1b')).toBeLessThan(1.6);
  // 3 A of the start relay coil and 1 A of the helm.
  expect(boat.at('START', fault).volts('X1.1a', 'X1.1b')).toBeGreaterThan(2.5);
});

test('trim: up and down turn the current round, about 25 A', () => {
  const up = boat.at('ON, S4 up').amps('M2.1');
  const down = boat.at('ON, S4 down').amps('M2.1');
  expect(up).toBeGreaterThan(20);
  expect(down).toBeLessThan(-20);
  expect(Math.abs(boat.at('ON').amps('M2.1'))).toBeLessThan(1e-9);
});

test('charging needs no excitation; no lamp tells of it', () => {
  const running = boat.at('ON, engine running');
  expect(running.amps('G1.+')).toBeGreaterThan(0);
  expect(running.volts('G1.+', 'G1.-')).toBeGreaterThan(12.8);
});

test('key-off current: the regulator’s 0.1 mA; the bilge pump adds 3 A when its float rises, battery switch on or off', () => {
  expect(-boat.at('key out').amps('G1.+')).toBeLessThan(0.0005);
  expect(-boat.at('key out, S6 on').amps('G1.+')).toBeGreaterThan(2.8);
  expect(-boat.at('key out, S6 on, S20 off').amps('G1.+')).toBeGreaterThan(2.8);
});

test('battery switch off: everything dead but the bilge pump', () => {
  const off = boat.at('ON, S20 off, S6 on, S7 on');
  for (const load of ['P1', 'E1', 'A3']) expect(off.is(load)).toBe('dead');
  expect(off.is('M3')).toBe('works');
});

test('B-A contact dead at ON: helm dark in ON, alive in START, spark untouched', () => {
  const faulty = boat.table('S1.B-A open at ON');
  expect(faulty.row('P1')).toBe('dead dead works');
  expect(faulty.row('A1')).toBe(healthy.row('A1'));
});

test('B-A contact stuck closed: helm live with the key out (common practice, no source)', () => {
  expect(boat.at('key out', 'S1.B-A stuck closed').is('P1')).toBe('works');
});

test('start contact that comes and goes: cranks sometimes, the rest stays (common practice, no source)', () => {
  const faulty = boat.table('S1.B-S comes and goes 40 %');
  expect(faulty.cell('M1', 'START').sometimes).toMatchObject({ verdict: 'dead', share: 0.4 });
  for (const load of ['A1', 'P1', 'E1']) expect(faulty.changed()).not.toContain(load);
});
