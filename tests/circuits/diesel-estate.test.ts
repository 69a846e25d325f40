import { expect, test } from 'vitest';
import { vehicle } from './vehicle.ts';

const estate = vehicle('diesel-estate');
const healthy = estate.table();

// What a technician expects of each load at OFF, ACC, ON, START. Common practice, no source.
test.each([
  ['M1', 'dead dead dead works', 'starter in START, clutch pressed'],
  ['Y1', 'dead dead works works', 'stop solenoid held in ON and START'],
  ['E1', 'dead dead works works', 'glow plug just after ON, and while cranking'],
  ['H3', 'dead dead works works', 'glow lamp'],
  ['H1', 'dead dead works works', 'charge lamp'],
  ['M2', 'dead works works dead', 'blower off in START'],
  ['M3', 'dead works works dead', 'wiper off in START'],
  ['A2', 'dead works works dead', 'radio off in START'],
  ['E5', 'dead dead works works', 'filter heater while cold'],
  ['E7', 'works works works works', 'brake lamps on 30'],
  ['E9', 'works works works works', 'dipped beam on 30'],
  ['engine', 'still still runs cranks', 'runs as long as the stop solenoid is held'],
])('%s: %s (%s)', (load, cells) => {
  expect(healthy.row(load)).toBe(cells);
});

test('15 contact dead at ON: fires and dies at release, the petrol story without a ballast', () => {
  const faulty = estate.table('S1.30-15 open at ON');
  expect(faulty.row('Y1')).toBe('dead dead dead works');
  expect(faulty.row('engine')).toBe('still still still cranks');
  for (const load of ['M1', 'M2', 'A2', 'E7', 'E9']) expect(faulty.row(load)).toBe(healthy.row(load));
  expect(estate.at('between ON and START', 'S1.30-15 open at ON').is('Y1')).toBe('works');
});

test('glow current, some 50 A, never passes the key', () => {
  // Four plugs of 0.9 Ω, with 10 to 12 A steady by handbook copies (secondary) and a little more when new.
  const on = estate.at('ON');
  expect(on.amps('FL2')).toBeGreaterThan(45);
  expect(on.amps('FL2')).toBeLessThan(56);
  expect(on.amps('S1.30-15')).toBeLessThan(4);
});

test('glow ends with the engine running', () => {
  expect(estate.at('ON, engine running').is('E1')).toBe('dead');
});

test('glow relay welded: plugs on with the key out, and the key switch is innocent', () => {
  const welded = estate.at('key out', 'K1 contact stuck closed');
  for (const plug of ['E1', 'E2', 'E3', 'E4']) expect(welded.is(plug)).toBe('works');
  expect(-welded.amps('G1.+')).toBeGreaterThan(40);
  expect(welded.amps('S1.30')).toBeLessThan(0.01);
  // Unplugging the key switch changes nothing: wiring or relay.
  expect(estate.at('key out, unplugged X2', 'K1 contact stuck closed').is('E1')).toBe('works');
});

test('clutch switch carries the whole solenoid current; released: silence', () => {
  // Hold-in 1.05 Ω: some 10 A once the main contact is closed.
  const start = estate.at('START, S5 pressed');
  expect(start.amps('S5.1')).toBeGreaterThan(8);
  expect(start.amps('S5.1')).toBeLessThan(13);
  expect(estate.at('START').is('M1')).toBe('dead');
  expect(estate.at('START').volts('S5.1')).toBeGreaterThan(11);
});

test('engine off by the key: D+ through the 2 W lamp cannot hold the stop solenoid', () => {
  const off = estate.at('ON, engine running').next('OFF, engine running');
  expect(off.is('Y1')).toBe('dead');
  // 14 V through 72 Ω of lamp into 9 Ω and what else hangs on 15: some 1 to 2 V at most.
  expect(off.volts('Y1.1')).toBeLessThan(2.5);
  expect(off.engine()).toBe('still');
});

test('a 21 W lamp in place of the charge lamp holds the stop solenoid after key-off: the engine runs on', () => {
  const on = estate.at('ON, engine running', 'H1 wrong lamp 21 W');
  expect(on.next('OFF, engine running').is('Y1')).not.toBe('dead');
});

test('bridged 15 contact: the stop solenoid stays held with the key out', () => {
  expect(estate.at('key out', 'S1.30-15 stuck closed').is('Y1')).toBe('works');
});

test('charge lamp and excitation: 0.1 to 0.2 A through the 2 W lamp', () => {
  const on = estate.at('ON');
  expect(on.amps('H1.1')).toBeGreaterThan(0.1);
  expect(on.amps('H1.1')).toBeLessThan(0.2);
  expect(estate.at('ON, engine running').amps('G1.+')).toBeGreaterThan(0);
});

test('key-off current: radio 6, glow timer 1, alternator 1 mA', () => {
  expect(-estate.at('key out').amps('G1.+')).toBeCloseTo(0.008, 3);
});

test('left in ON with the engine stopped and cold: solenoid and filter heater drain 15 A and more', () => {
  const on = estate.at('ON, engine running').amps('E5.1');
  expect(on).toBeGreaterThan(10);
  expect(estate.at('ON, S8 hot').is('E5')).toBe('dead');
});

test('glow lamp proves nothing about the plugs: it burns with the glow link blown', () => {
  const blown = estate.at('ON', 'FL2 blown');
  expect(blown.is('H3')).toBe('works');
  expect(blown.is('E1')).toBe('dead');
});

test('accessory contact stuck closed: radio and blower live with the key out and in START (common practice, no source)', () => {
  const fault = 'S1.30-75 stuck closed';
  expect(estate.at('key out', fault).is('A2')).toBe('works');
  expect(estate.at('key out, S9 on', fault).is('M2')).toBe('works');
  expect(estate.table(fault).cell('A2', 'START').verdict).toBe('works');
});

test('start contact that comes and goes: cranks sometimes, the rest stays (common practice, no source)', () => {
  const faulty = estate.table('S1.30-50 comes and goes 40 %');
  expect(faulty.cell('M1', 'START').sometimes).toMatchObject({ verdict: 'dead', share: 0.4 });
  for (const load of ['Y1', 'A2', 'M2', 'E7']) expect(faulty.changed()).not.toContain(load);
});
