import { expect, test } from 'vitest';
import { vehicle } from './vehicle.ts';

const tractor = vehicle('tractor');
const healthy = tractor.table();

// What a technician expects of each load at OFF, ON, HEAT, START. Common practice, no source.
test.each([
  ['M1', 'dead dead dead works', 'starter in START, clutch pressed'],
  ['E1', 'dead dead works works', 'flame heater in HEAT, and still while cranking'],
  ['H1', 'dead works works works', 'charge lamp'],
  ['H2', 'dead works works works', 'oil lamp, engine standing'],
  ['P1', 'dead works works works', 'fuel gauge'],
  ['P3', 'dead works works works', 'hour meter on 15'],
  ['E2', 'dead works works works', 'brake lamps on 15'],
  ['E4', 'works works works works', 'head lamps do not ask the key'],
  ['E5', 'works works works works', 'work lamps do not ask the key'],
  ['B3', 'works works works works', 'horn does not ask the key'],
])('%s: %s (%s)', (load, cells) => {
  // Cranking takes the battery to about 11 V: lamps may be a shade dimmer, never dead.
  expect(healthy.row(load).replace(/weak$/, 'works')).toBe(cells);
});

test('clutch not pressed: START is silent, the start relay does not even click', () => {
  const silent = tractor.at('START');
  expect(silent.is('M1')).toBe('dead');
  expect(Math.abs(silent.volts('K1.86', 'K1.85'))).toBeLessThan(0.1);
  // 30-50 live and no current: the chain is open beyond.
  expect(silent.volts('S1.50')).toBeGreaterThan(11);
});

test('each of the three interlocks alone stops the crank', () => {
  expect(tractor.at('START, S3 pressed').is('M1')).toBe('works');
  expect(tractor.at('START, S3 pressed, S2 in gear').is('M1')).toBe('dead');
  expect(tractor.at('START, S3 pressed, S4 on').is('M1')).toBe('dead');
});

test('the walk back: live before the open interlock, dead behind it', () => {
  const open = tractor.at('START, S3 pressed', 'S2 open');
  expect(open.volts('S2.1')).toBeGreaterThan(11);
  expect(Math.abs(open.volts('S2.2'))).toBeLessThan(0.1);
});

test('start relay: key switch and interlocks carry its coil only, about 0.2 A', () => {
  // 62 Ω at cranking volts.
  const start = tractor.at('START, S3 pressed');
  expect(start.amps('S1.30-50')).toBeGreaterThan(0.13);
  expect(start.amps('S1.30-50')).toBeLessThan(0.22);
  // Hold-in 0.95 Ω: some 11 A go by the relay.
  expect(start.amps('K1.30')).toBeGreaterThan(9);
});

test('HEAT: 13 A through contact 30-19, none of it through 30-15', () => {
  const heat = tractor.at('HEAT');
  expect(heat.amps('S1.30-19')).toBeGreaterThan(12);
  expect(heat.amps('S1.30-19')).toBeLessThan(14.5);
  expect(heat.amps('S1.30-15')).toBeLessThan(1);
});

test('key to OFF with the engine running: it runs on, and D+ feeds 15 backwards through the charge lamp', () => {
  const off = tractor.at('ON, engine running').next('OFF, engine running');
  expect(off.engine()).toBe('runs');
  expect(off.amps('H1.1')).toBeLessThan(-0.05);
  expect(Math.abs(tractor.at('OFF').amps('H1.1'))).toBeLessThan(1e-6);
});

test('cab strap: the only return of the cab; 0.3 Ω dims the work lamps and nothing on the engine', () => {
  const bad = tractor.at('ON, S8 on', 'W3 0.3 Ω');
  expect(bad.volts('E5.2', 'G1.-')).toBeGreaterThan(2);
  expect(bad.volts('G2.31', 'G1.-')).toBeLessThan(0.1);
  expect(tractor.at('ON, S8 on').volts('E5.2', 'G1.-')).toBeLessThan(0.1);
});

test('charge lamp carries 0.12 to 0.25 A of excitation', () => {
  // 2.2 W at 12 V: 0.18 A; rotor 3.6 Ω.
  const on = tractor.at('ON');
  expect(on.amps('H1.1')).toBeGreaterThan(0.12);
  expect(on.amps('H1.1')).toBeLessThan(0.25);
});

test('engine running: battery charged, charge and oil lamps dark', () => {
  const runs = tractor.at('ON, engine running');
  expect(runs.amps('G1.+')).toBeGreaterThan(0);
  expect(runs.is('H1')).toBe('dead');
  expect(runs.is('H2')).toBe('dead');
});

test('key-off current: what the alternator leaks, about 1 mA', () => {
  expect(-tractor.at('key out').amps('G1.+')).toBeCloseTo(0.001, 4);
});

test('work lamps forgotten: about 9 A with the key out', () => {
  // 110 W at 12 V.
  const amps = -tractor.at('key out, S8 on').amps('G1.+');
  expect(amps).toBeGreaterThan(8.5);
  expect(amps).toBeLessThan(10);
});

test('15 contact dead at ON: instruments dark in ON, alive in HEAT and START', () => {
  const faulty = tractor.table('S1.30-15 open at ON');
  expect(faulty.row('H2')).toBe('dead dead works works');
  for (const load of ['M1', 'E1', 'E4', 'B3']) expect(faulty.row(load)).toBe(healthy.row(load));
});

test('heater contact stuck closed: heater on with the key out (common practice, no source)', () => {
  expect(tractor.at('key out', 'S1.30-19 stuck closed').is('E1')).toBe('works');
  expect(tractor.at('key out').is('E1')).toBe('dead');
});

test('start contact that comes and goes: cranks sometimes, the rest stays (common practice, no source)', () => {
  const faulty = tractor.table('S1.30-50 comes and goes 40 %');
  expect(faulty.cell('M1', 'START').sometimes).toMatchObject({ verdict: 'dead', share: 0.4 });
  for (const load of ['E1', 'H1', 'E4', 'B3']) expect(faulty.changed()).not.toContain(load);
});
