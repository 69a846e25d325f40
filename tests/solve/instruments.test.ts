import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { restScene } from '../../src/circuit/scenePhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { ammeter, type Bench, clamp, ohmmeter, testLamp, voltmeter } from '../../src/solve/instruments.ts';

function bench(text: string, hand: Record<string, string> = {}, apart: readonly string[] = []): Bench {
  const read = readCircuit(text, 'test', partKinds);
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('; '));
  return { circuit: read.value, changes: [], scene: { ...restScene(read.value), hand, apart } };
}

const divider = `
title: Divider
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0 Ω }
  R1: { kind: resistor, resistance: 10000 kΩ }
  R2: { kind: resistor, resistance: 1 Ω }
  S1: { kind: switch }
wires:
  - { from: G1.+, to: R1.1 }
  - { from: G1.+, to: S1.1 }
  - { id: W3, from: S1.2, to: R2.1 }
  - { from: R2.2, to: G1.- }
  - { from: G1.-, to: ground }
`;

test("a voltmeter's own 10 MΩ halves what it reads behind 10 MΩ (Ohm's law)", () => {
  const read = voltmeter(bench(divider), 'R1.2', 'ground');
  expect(read).toMatchObject({ shows: 'volts', floating: false });
  if (read.shows === 'volts') expect(read.volts).toBeCloseTo(6, 9);
});

test('a voltmeter between the ends of a stiff supply reads its voltage', () => {
  const read = voltmeter(bench(divider), 'G1.+', 'ground');
  if (read.shows === 'volts') expect(read.volts).toBeCloseTo(12, 9);
  expect(read.shows).toBe('volts');
});

test('a lead on a terminal that is tied to nothing says so and reads 0 V', () => {
  const floating = divider.replace('- { from: R2.2, to: G1.- }', '');
  const read = voltmeter(bench(floating), 'R2.1', 'ground');
  expect(read).toMatchObject({ shows: 'volts', floating: true });
  if (read.shows === 'volts') expect(Math.abs(read.volts)).toBeLessThan(1e-9);
});

test('a test lamp glows bright on the supply, and stays dark behind 10 MΩ where a voltmeter still reads half', () => {
  const bright = testLamp(bench(divider), 'G1.+', 'ground');
  // 3 W at its rated 12 V is 0.25 A.
  expect(bright).toMatchObject({ shows: 'lamp', brightness: 'bright' });
  if (bright.shows === 'lamp') expect(bright.amperes).toBeCloseTo(0.25, 3);
  expect(testLamp(bench(divider), 'R1.2', 'ground')).toMatchObject({ brightness: 'dark' });
});

test('a clamp reads the current and does not touch it; an ammeter in line adds its shunt', () => {
  const on = bench(divider, { S1: 'on' });
  const clamped = clamp(on, 'R2');
  const inLine = ammeter(on, 'R2');
  if (clamped.shows !== 'amperes' || inLine.shows !== 'amperes') throw new Error('no amperes');
  expect(Math.abs(clamped.amperes)).toBeGreaterThan(11.9);
  expect(inLine.blown).toBe(true); // 11.6 A through a 10 A fuse
  expect(inLine.amperes).toBe(0);
});

test('an ohmmeter refuses a live circuit and says which volts stand where', () => {
  const read = ohmmeter(bench(divider, { S1: 'on' }), 'R2.1', 'ground');
  expect(read.shows).toBe('refusal');
  if (read.shows === 'refusal') {
    expect(read.volts).toBeGreaterThan(11);
    expect(read.at).toBe('R2.1');
  }
});

test('an ohmmeter on a dead circuit reads the resistance, 0 along a joint, and no way as open', () => {
  const dead = bench(divider, {}, ['G1']);
  expect(ohmmeter(dead, 'R2.1', 'R2.2')).toEqual({ shows: 'ohms', ohm: 1 });
  expect(ohmmeter(dead, 'S1.2', 'R2.1')).toEqual({ shows: 'ohms', ohm: 0 });
  expect(ohmmeter(dead, 'S1.1', 'S1.2')).toEqual({ shows: 'ohms', ohm: Number.POSITIVE_INFINITY });
});
