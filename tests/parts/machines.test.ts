import { describe, expect, test } from 'vitest';
import { circuitFrom } from './examples.ts';
import { solved } from './solved.ts';

/** A battery behind some resistance, a push button to 50, a lamp as ballast bypass on 16. */
const cranked = (starter = '', feed_ohm = 0.0089, button_ohm = 0.02) =>
  circuitFrom(`title: t
parts:
  G1: { kind: supply, voltage: 12.65 V, resistance: ${feed_ohm} Ω }
  S1: { kind: switch, contact: ${button_ohm} Ω }
  M1: { kind: starter, bypass: yes${starter} }
  H1: { kind: lamp, power: 21 W }
wires:
  - { from: G1.+, to: M1.30 }
  - { from: G1.+, to: S1.1 }
  - { from: S1.2, to: M1.50 }
  - { from: M1.16, to: H1.1 }
  - { from: H1.2, to: ground }
  - { from: M1.31, to: ground }
  - { from: G1.-, to: ground }
`);
const pressed = { hand: { S1: 'on' } };

describe('starter', () => {
  test('cranks with 150 to 185 A at 10.5 to 11.5 V: 4 cylinders, service data (secondary)', () => {
    const at = solved(cranked(), pressed);
    expect(at.verdict('M1')).toBe('works');
    expect(at.amps('M1.motor')).toBeGreaterThan(150);
    expect(at.amps('M1.motor')).toBeLessThan(185);
    expect(at.volts('M1.30')).toBeGreaterThan(10.5);
    expect(at.volts('M1.30')).toBeLessThan(11.5);
  });

  test('once the contact is closed only the hold-in winding draws (from memory), and 16 feeds the bypass', () => {
    const at = solved(cranked(), pressed);
    expect(Math.abs(at.amps('M1.pull-in'))).toBeLessThan(0.5);
    expect(at.amps('M1.hold-in')).toBeGreaterThan(8);
    expect(at.verdict('H1')).toBe('works');
    expect(solved(cranked()).verdict('H1')).toBe('dead');
  });

  // Hold-in 0.5 to 1.0 Ω and pull-in 0.13 to 0.25 Ω of a large starter at 10 V: 10 to 20 A and 60 to 85 A both (service data, secondary).
  test('a large starter draws 60 to 85 A before it engages and 10 to 20 A after, at 10 V: service data (secondary)', () => {
    const circuit = cranked(', pull-in: 0.17 Ω, hold-in: 0.7 Ω', 1e-4, 1e-6);
    const before = solved(circuit, {
      ...pressed,
      faults: ['M1 contact open'],
      states: new Map([['M1', { engaged: false }]]),
      settles: false,
    });
    const both = before.amps('S1') * (10 / before.volts('M1.50'));
    expect(both).toBeGreaterThan(60);
    expect(both).toBeLessThan(85);
    const after = solved(circuit, pressed);
    const hold = after.amps('M1.hold-in') * (10 / after.volts('M1.50'));
    expect(hold).toBeGreaterThan(10);
    expect(hold).toBeLessThan(20);
  });

  test('wants about 8 V at terminal 50 to pull in (from memory), and holds with less', () => {
    // The windings together have 0.32 Ω: 0.15 Ω in the way leave 8.6 V, 0.25 Ω leave 7.1 V.
    expect(solved(cranked('', 0.0089, 0.15), pressed).verdict('M1')).toBe('works');
    expect(solved(cranked('', 0.0089, 0.25), pressed).verdict('M1')).toBe('dead');
    const engaged = new Map([['M1', { engaged: true }]]);
    // What pulls is the current that comes in at 50: the pull-in winding, fed from the motor side, works against the other.
    expect(solved(cranked('', 0.0089, 0.5), { ...pressed, states: engaged }).verdict('M1')).toBe('works');
    expect(solved(cranked('', 0.0089, 2), { ...pressed, states: engaged }).verdict('M1')).toBe('dead');
  });

  test('lets go when the button does, though the motor still feeds the windings from behind', () => {
    const engaged = solved(cranked(), pressed).point.states;
    const after = solved(cranked(), { states: engaged });
    expect(after.point.states.get('M1')).toEqual({ engaged: false });
    expect(after.amps('M1.motor')).toBe(0);
  });

  test('hammers with a broken hold-in winding, and with a battery that collapses', () => {
    expect(solved(cranked(), { ...pressed, faults: ['M1 hold-in open'] }).point.chatters).toEqual(['M1']);
    expect(solved(cranked('', 0.12, 1e-6), pressed).point.chatters).toEqual(['M1']);
  });

  test.each([
    ['M1 pull-in open', 'dead'],
    ['M1 contact open', 'dead'],
    ['M1 contact 0.03 Ω', 'weak'],
    ['M1 brushes 0.02 Ω', 'weak'],
    ['M1 brushes open', 'dead'],
    ['M1 locked', 'dead'],
  ])('%s: %s', (fault, verdict) => expect(solved(cranked(), { ...pressed, faults: [fault] }).verdict('M1')).toBe(verdict));

  test('a welded contact turns the motor with nobody at the key', () => {
    expect(solved(cranked(), { faults: ['M1 contact stuck closed'] }).verdict('M1')).toBe('works');
  });

  test('a locked one takes 515 A at 4 V: service data (secondary)', () => {
    const circuit = cranked('', 1e-4, 0.01);
    const at = solved(circuit, { ...pressed, faults: ['M1 locked'] });
    expect((4 * at.amps('M1.motor')) / at.volts('M1.30')).toBeGreaterThan(0.85 * 515);
    expect((4 * at.amps('M1.motor')) / at.volts('M1.30')).toBeLessThan(1.02 * 515);
  });
});

/** Battery, alternator, charge lamp behind an ignition switch, a load on 15 and one on 30. */
const charging = (more = '') =>
  circuitFrom(`title: t
parts:
  G1: { kind: battery }
  G2: { kind: alternator${more} }
  S1: { kind: switch }
  S2: { kind: switch }
  H1: { kind: lamp, power: 2 W }
  E1: { kind: resistor, resistance: 12 Ω, load: yes }
  E2: { kind: resistor, resistance: 0.6 Ω }
wires:
  - { from: G1.+, to: G2.B+, area: 6 mm², length: 1.5 m }
  - { from: G1.+, to: S1.1 }
  - { from: S1.2, to: H1.1 }
  - { from: S1.2, to: E1.1 }
  - { from: H1.2, to: G2.D+ }
  - { from: G1.+, to: S2.1 }
  - { from: S2.2, to: E2.1 }
  - { from: E1.2, to: ground }
  - { from: E2.2, to: ground }
  - { from: G2.31, to: ground }
  - { from: G1.-, to: ground }
`);
const on = { hand: { S1: 'on' } };

describe('alternator', () => {
  test('engine off: the charge lamp is lit and D+ at 0.4 to 2 V (common practice, no source)', () => {
    const at = solved(charging(), on);
    expect(at.verdict('H1')).toBe('works');
    expect(at.volts('G2.D+')).toBeGreaterThan(0.4);
    expect(at.volts('G2.D+')).toBeLessThan(2);
  });
  // 2 W lamp: 0.17 A (secondary).
  test('a 2 W lamp gives about 0.17 A of field current: service data (secondary)', () => {
    expect(Math.abs(solved(charging(), on).amps('G2.rotor') - 0.17)).toBeLessThan(0.02);
  });
  test('engine running: 13.7 to 14.6 V at 20 °C (service data, secondary), lamp dark, D+ within 0.5 V of B+', () => {
    const at = solved(charging(), { ...on, engine: 'running' });
    expect(at.volts('G1.+')).toBeGreaterThan(13.7);
    expect(at.volts('G1.+')).toBeLessThan(14.6);
    expect(at.verdict('H1')).toBe('dead');
    expect(Math.abs(at.volts('G2.D+', 'G2.B+'))).toBeLessThan(0.5);
    expect(at.amps('G1')).toBeLessThan(0);
  });
  test('gives no more than its rated current; the battery brings the rest', () => {
    const at = solved(charging(', rated: 10 A'), { hand: { S1: 'on', S2: 'on' }, engine: 'running' });
    expect(-at.amps('G2')).toBeLessThanOrEqual(10);
    expect(at.amps('G1')).toBeGreaterThan(5);
  });
  test('a broken charge lamp means no charge', () => {
    const at = solved(charging(), { ...on, engine: 'running', faults: ['H1 open'] });
    expect(at.amps('G2')).toBeGreaterThanOrEqual(0);
    expect(at.volts('G1.+')).toBeLessThan(12.7);
  });
  test('once excited it keeps terminal 15 alive through the charge lamp when the key goes off: trade case (secondary)', () => {
    const running = solved(charging(), { ...on, engine: 'running' });
    const off = solved(charging(), { engine: 'running', states: running.point.states });
    expect(off.point.states.get('G2')).toEqual({ excited: true });
    expect(off.volts('E1.1')).toBeGreaterThan(1);
    expect(off.amps('H1')).toBeLessThan(0);
    expect(solved(charging(), { engine: 'stopped', states: running.point.states }).amps('E1')).toBeCloseTo(0, 9);
  });
  test('rectifier diodes block; a leaking one draws what it is said to', () => {
    expect(solved(charging()).amps('G1')).toBeLessThan(0.0021);
    expect(Math.abs(solved(charging(), { faults: ['G2 diode leaks 0.4 A'] }).amps('G1') - 0.4)).toBeLessThan(0.003);
  });
  test('a shorted exciter diode leaves the charge lamp glowing backwards into 15 with the key off', () => {
    const at = solved(charging(), { faults: ['G2 exciter diode shorted'] });
    expect(at.amps('H1')).toBeLessThan(-0.05);
    expect(at.volts('E1.1')).toBeGreaterThan(0.5);
  });
  test.each([
    ['G2 rotor open', 12.7],
    ['G2 belt off', 12.7],
    ['G2 charges low', 13.2],
  ])('%s: no more than %f V running', (fault, volts) => {
    expect(solved(charging(), { ...on, engine: 'running', faults: [fault] }).volts('G1.+')).toBeLessThan(volts);
  });
  test('an alternator with magnets has no D+ and charges as soon as it turns', () => {
    const circuit = circuitFrom(`title: t
parts:
  G1: { kind: battery, capacity: 9 Ah }
  G2: { kind: alternator, excitation: magnet, rated: 14 A }
wires:
  - { from: G1.+, to: G2.B+ }
  - { from: G2.31, to: ground }
  - { from: G1.-, to: ground }
`);
    expect(solved(circuit, { engine: 'running' }).amps('G1')).toBeLessThan(0);
    expect(solved(circuit).amps('G1')).toBeGreaterThanOrEqual(0);
  });
});

describe('dynamo', () => {
  const six = (positive: boolean) => {
    const [live, body] = positive ? ['-', '+'] : ['+', '-'];
    return circuitFrom(`title: t
parts:
  G1: { kind: battery, voltage: 6 V, capacity: 70 Ah }
  G2: { kind: dynamo, voltage: 7.2 V, rated: 20 A, positive-ground: ${positive ? 'yes' : 'no'} }
  S1: { kind: switch }
  H1: { kind: lamp, power: 1.8 W, at: 6 V }
wires:
  - { from: G1.${live}, to: G2.B+ }
  - { from: G1.${live}, to: S1.1 }
  - { from: S1.2, to: H1.1 }
  - { from: H1.2, to: G2.61 }
  - { from: G2.31, to: ground }
  - { from: G1.${body}, to: ground }
`);
  };
  test.each([false, true])('lamp lit at rest and dark running, 7.0 to 7.4 V (from memory); positive ground: %s', (positive) => {
    const rest = solved(six(positive), on);
    expect(rest.verdict('H1')).toBe('works');
    expect(Math.abs(rest.amps('G2.cut-out'))).toBe(0);
    const running = solved(six(positive), { ...on, engine: 'running' });
    expect(running.verdict('H1')).toBe('dead');
    expect(Math.abs(running.volts('G2.B+'))).toBeGreaterThan(7);
    expect(Math.abs(running.volts('G2.B+'))).toBeLessThan(7.4);
    expect(running.amps('G1')).toBeLessThan(0);
  });
  test('the cut-out opens when the engine stops; stuck closed it drains the battery', () => {
    const running = solved(six(false), { ...on, engine: 'running' }).point.states;
    expect(solved(six(false), { states: running }).amps('G1')).toBeLessThan(0.001);
    expect(solved(six(false), { faults: ['G2 cut-out stuck closed'] }).amps('G1')).toBeGreaterThan(5);
  });
});
