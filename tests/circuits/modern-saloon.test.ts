import { expect, test } from 'vitest';
import { vehicle } from './vehicle.ts';

const modern = vehicle('modern-saloon');
const healthy = modern.table();

// What a technician expects of each load at OFF, ACC, ON, START. Common practice, no source.
test.each([
  ['M1', 'dead dead dead works', 'starter in START, clutch pressed, key known'],
  ['T1', 'dead dead works works', 'coils and injectors by the main relay'],
  ['M2', 'dead dead works works', 'pump hums for 2 s at ON, and while cranking'],
  ['A4', 'dead works works dead', 'radio by the accessory relay, off in START'],
  ['M4', 'dead dead works dead', 'blower by the relay of the 15 loads, off in START'],
  ['M5', 'dead dead works dead', 'wiper the same'],
  ['A3', 'dead dead works works', 'cluster awake with 15'],
  ['A6', 'dead dead works works', 'airbag module'],
  ['E1', 'works works works works', 'interior lamp by the door'],
  ['E3', 'works works works works', 'brake lamps on 30'],
  ['engine', 'still still runs cranks', 'spark and fuel in ON'],
])('%s: %s (%s)', (load, cells) => {
  expect(healthy.row(load)).toBe(cells);
});

test('key contacts carry signals: next to nothing on 75 and 50, under 1 A on 15', () => {
  const on = modern.at('ON, S6 on, S7 at 1, S9 pressed');
  expect(on.amps('S1.30-75')).toBeLessThan(0.001);
  expect(on.amps('S1.30-15')).toBeGreaterThan(0.4);
  expect(on.amps('S1.30-15')).toBeLessThan(1);
  expect(modern.at('START, S2 pressed').amps('S1.30-50')).toBeLessThan(0.001);
});

test('a contact burnt to 5 Ω costs volts on 15 and nothing on 75 and 50: they still switch', () => {
  const on = modern.at('ON', 'S1.30-15 5 Ω');
  expect(on.volts('S1.30', 'S1.15')).toBeGreaterThan(2);
  expect(modern.at('ACC', 'S1.30-75 5 Ω').is('A4')).toBe('works');
  expect(modern.at('START, S2 pressed', 'S1.30-50 5 Ω').is('M1')).toBe('works');
});

test('START with a key that the cluster does not know: K1 silent, terminal 50 live at the engine control, the key switch is innocent', () => {
  const wrong = modern.at('START, S2 pressed, S11 on');
  expect(wrong.is('M1')).toBe('dead');
  expect(wrong.volts('A1.50')).toBeGreaterThan(12);
  expect(modern.at('ON, engine running, S11 on').is('M2')).toBe('dead');
});

test('START without the clutch: silence', () => {
  expect(modern.at('START').is('M1')).toBe('dead');
  expect(modern.at('START, S2 pressed').is('M1')).toBe('works');
});

test('a resting relay has 12 V on both ends of its coil: normal for switching to ground', () => {
  const off = modern.at('key out');
  for (const end of ['K1.86', 'K1.85', 'K4.86', 'K4.85']) expect(off.volts(end)).toBeGreaterThan(12);
});

test('pulled relay: its 85 lies near ground', () => {
  expect(modern.at('ACC').volts('K4.85')).toBeLessThan(0.5);
});

test('accessory relay welded: radio live with the key out, and 12 V at K4.85 clears the body module', () => {
  const welded = modern.at('key out', 'K4 contact stuck closed');
  expect(welded.is('A4')).toBe('works');
  expect(welded.volts('K4.85')).toBeGreaterThan(12);
});

test('key-off current asleep: body module 9, alarm 6, cluster 4, radio 3, engine control 1, alternator 1 mA', () => {
  expect(-modern.at('key out').amps('G1.+')).toBeCloseTo(0.024, 3);
});

test('a door left open wakes the body module: half an ampere and more', () => {
  const open = -modern.at('key out, S3 open').amps('G1.+');
  // 450 mA awake, interior lamp 0.85 A, saver relay coil 0.14 A.
  expect(open).toBeGreaterThan(1.2);
  expect(open).toBeLessThan(1.8);
});

test('glove lamp: dark with the key out because the saver relay lets go; the module kept awake lights it', () => {
  expect(modern.at('key out, S8 on').is('E2')).toBe('dead');
  const awake = modern.at('key out, S8 on', 'A2 stays awake');
  expect(awake.is('E2')).toBe('works');
  expect(-awake.amps('G1.+')).toBeGreaterThan(0.9);
});

test('single 15 signal broken at X2.3: cluster, airbag module, engine control and 15 loads die together, radio lives', () => {
  const broken = modern.table('X2.3 open');
  for (const load of ['A3', 'A6', 'T1', 'M4', 'M5']) expect(broken.cell(load, 'ON').verdict).toBe('dead');
  expect(broken.cell('A4', 'ACC').verdict).toBe('works');
  expect(broken.row('engine')).toBe('still still still still');
});

test('15 contact dead at ON: runs in START, dies on release', () => {
  const faulty = modern.table('S1.30-15 open at ON');
  expect(faulty.row('T1')).toBe('dead dead dead works');
  expect(faulty.row('engine')).toBe('still still still cranks');
  expect(faulty.row('M1')).toBe(healthy.row('M1'));
  expect(modern.at('between ON and START', 'S1.30-15 open at ON').is('T1')).toBe('works');
});

test('A-pillar ground lifted: everything on it suffers together', () => {
  const lifted = modern.at('ON, S6 on, S7 at 1', 'XE3 2 Ω');
  expect(lifted.volts('M4.2')).toBeGreaterThan(3);
  expect(lifted.is('M4')).not.toBe('works');
  expect(lifted.is('M3')).toBe(modern.at('ON, S6 on, S7 at 1').is('M3'));
});

test('fan: on the hot switch with 15, and no key feed through the fan', () => {
  expect(modern.at('ON, S12 hot').is('M3')).toBe('works');
  expect(modern.at('ON').is('M3')).toBe('dead');
  expect(modern.at('key out, S12 hot').is('M3')).toBe('dead');
});

test('75 contact stuck closed: radio live with the key out, silent in START as ever, by the module (common practice, no source)', () => {
  expect(modern.at('key out', 'S1.30-75 stuck closed').is('A4')).toBe('works');
  expect(modern.table('S1.30-75 stuck closed').cell('A4', 'START').verdict).toBe('dead');
});

test('start contact that comes and goes: cranks sometimes (common practice, no source)', () => {
  const faulty = modern.table('S1.30-50 comes and goes 40 %');
  expect(faulty.cell('M1', 'START').sometimes).toMatchObject({ verdict: 'dead', share: 0.4 });
  for (const load of ['T1', 'A3', 'E3']) expect(faulty.changed()).not.toContain(load);
});
