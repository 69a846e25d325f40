import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { readScene } from '../../src/circuit/scenePhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { type FitReading, fitted } from '../../src/solve/fit.ts';
import { network, type PartChange } from '../../src/solve/network.ts';
import { amperesInto, operatingPoint, voltsAt } from '../../src/solve/operatingPoint.ts';

function circuitOf(name: string): Circuit {
  const read = readCircuit(readFileSync(`circuits/${name}.yaml`, 'utf8'), name, partKinds);
  if (!read.ok) throw new Error('it does not read');
  return read.value;
}
const van = circuitOf('light-van');

function reading(words: string, of: FitReading['of'], at: string, value: number): FitReading {
  const scene = readScene(words, van, 'test');
  if (!scene.ok) throw new Error(words);
  return { phrase: `${words}: ${value} at ${at}`, scene: scene.value, of, at, to: 'ground', value };
}
/** What a vehicle with other figures would show. */
function shown(changes: readonly PartChange[], words: string, of: FitReading['of'], at: string): FitReading {
  const plain = reading(words, of, at, 0);
  const point = operatingPoint(network(van, changes), plain.scene);
  const value = of === 'volts' ? voltsAt(point, at)! : Math.abs(amperesInto(point, at));
  return { ...plain, phrase: `${plain.phrase} ${value}`, value };
}

test('readings of a vehicle with other figures are met, and the figures move towards those of the vehicle', () => {
  const vehicle: readonly PartChange[] = [
    { part: 'G1', change: { do: 'params', patch: { charge: 0.7 } } },
    { part: 'M2', change: { do: 'params', patch: { draws: 5.2 } } },
    { part: 'A1', change: { do: 'params', patch: { memory: 0.0046 } } },
  ];
  const readings = [
    shown(vehicle, 'key out', 'volts', 'G1.+'),
    shown(vehicle, 'START', 'volts', 'G1.+'),
    shown(vehicle, 'ON, S5 on', 'amperes', 'M2.1'),
    shown(vehicle, 'key out', 'amperes', 'A1.30'),
  ];
  const fit = fitted(van, readings);
  expect(fit.readings.filter((r) => !r.agrees)).toEqual([]);
  const after = (part: string, parameter: string) => fit.figures.find((f) => f.part === part && f.parameter === parameter)!.after;
  // Between what the file said and what the vehicle has, clearly on the way to it.
  expect(after('G1', 'charge')).toBeLessThan(0.85);
  expect(after('M2', 'draws')).toBeLessThan(5.6);
  expect(after('A1', 'memory')).toBeGreaterThan(0.0042);
}, 60_000);

test('no figure leaves its range, whatever is read', () => {
  for (const volts of [3, 9, 11, 14, 40]) {
    const fit = fitted(van, [reading('key out', 'volts', 'G1.+', volts), reading('START', 'volts', 'G1.+', volts / 2)]);
    for (const f of fit.figures) {
      expect(f.after).toBeGreaterThanOrEqual(f.least * (1 - 1e-12));
      expect(f.after).toBeLessThanOrEqual(f.most * (1 + 1e-12));
    }
  }
}, 60_000);

test('readings that the circuit gives itself move nothing', () => {
  const fit = fitted(van, [shown([], 'key out', 'volts', 'G1.+'), shown([], 'ON, S5 on', 'amperes', 'M2.1')]);
  for (const f of fit.figures) expect(Math.abs(f.after - f.before)).toBeLessThan(1e-3 * (f.most - f.least));
  expect(fit.disagree).toEqual([]);
}, 60_000);

test('two readings of one thing that cannot both be so are said to disagree', () => {
  const fit = fitted(van, [reading('key out', 'volts', 'G1.+', 12.5), reading('key out', 'volts', 'G1.+', 11.0)]);
  expect(fit.readings.some((r) => !r.agrees)).toBe(true);
  expect(fit.disagree.length).toBeGreaterThan(0);
}, 60_000);

test('a reading where nothing can be read is off, and says nothing of the figures', () => {
  const fit = fitted(van, [reading('key out', 'volts', 'S1.15', 12)]);
  expect(fit.readings[0]?.agrees).toBe(false);
}, 60_000);

/** A full battery, two lamps on it, one of them by a long wire, and a switch that is joined to nothing live. */
const small = circuitOfText(`title: Small
parts:
  G1: { kind: battery, capacity: 60 Ah, charge: 100 % }
  H1: { kind: lamp, power: 21 W }
  H2: { kind: lamp, power: 21 W }
  S2: { kind: switch }
  H3: { kind: lamp, power: 5 W }
wires:
  - { from: S2.1, to: H3.1 }
  - { from: S2.2, to: H3.2 }
  - { from: G1.-, to: ground }
  - { id: W1, from: G1.+, to: H1.1, area: 1 mm², length: 30 m }
  - { id: W2, from: H1.2, to: ground }
  - { id: W3, from: G1.+, to: H2.1 }
  - { id: W4, from: H2.2, to: ground }
`);
function circuitOfText(text: string): Circuit {
  const read = readCircuit(text, 'small.yaml', partKinds);
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('\n'));
  return read.value;
}
const rest = { hand: {}, engine: 'stopped', apart: [], bridged: [], swapped: [] } as const;
const onSmall = (of: FitReading['of'], at: string, value: number, to = 'ground'): FitReading => ({
  phrase: `${of} ${at} ${to}`,
  scene: rest,
  of,
  at,
  to,
  value,
});
const smallVolts = voltsAt(operatingPoint(network(small, []), rest), 'G1.+')!;

test('a full battery is only ever less full', () => {
  const { figures } = fitted(small, [onSmall('volts', 'G1.+', smallVolts - 0.3)]);
  const charge = figures.find((f) => f.parameter === 'charge')!;
  expect(charge).toMatchObject({ part: 'G1', before: 1, most: 1 });
  expect(charge.after).toBeGreaterThan(charge.least);
  expect(charge.after).toBeLessThan(0.98);
});

test('what a vehicle is called by, and lengths that the file gives, stay', () => {
  const off = [onSmall('volts', 'H1.1', smallVolts - 0.1), onSmall('amperes', 'H1.1', 1.2)];
  const moved = fitted(small, off).figures.map((f) => `${f.part}.${f.parameter}`);
  expect(moved).toContain('H1.power');
  expect(moved.filter((f) => f.startsWith('W') || /\.voltage$/.test(f))).toEqual([]);
});

test('a point on which nothing stands is no reading, of either lead, though 0 V was read', () => {
  const { readings } = fitted(small, [
    onSmall('volts', 'S2.1', 0),
    onSmall('volts', 'G1.+', 0, 'S2.2'),
    onSmall('volts', 'G1.+', smallVolts),
  ]);
  expect(readings.map((r) => [r.before, r.after, r.agrees])).toEqual([
    [null, null, false],
    [null, null, false],
    [expect.closeTo(smallVolts, 6), expect.closeTo(smallVolts, 2), true],
  ]);
});

test('of three readings the one that does not go with the others is named, and no other', () => {
  const { disagree, readings } = fitted(small, [
    onSmall('volts', 'G1.+', smallVolts),
    onSmall('volts', 'H1.1', smallVolts + 3),
    onSmall('amperes', 'H2.1', 1.7),
  ]);
  expect(readings.map((r) => r.agrees)).toContain(true);
  expect(disagree).toEqual(['volts H1.1 ground']);
});

test('what agrees is within three times 20 mV and half a per cent of the volts, 0.2 mA and 3 % of the amperes', () => {
  const { readings } = fitted(small, [onSmall('volts', 'G1.+', 12), onSmall('amperes', 'H1.1', -2)]);
  expect(readings.map((r) => r.within)).toEqual([expect.closeTo(0.24, 9), expect.closeTo(0.1806, 9)]);
});

test('a single reading that nothing meets is off, and no reading is to blame: there is none that it could go without', () => {
  const { readings, disagree } = fitted(small, [onSmall('volts', 'H1.1', 40)]);
  expect([readings[0]!.agrees, disagree]).toEqual([false, []]);
});
