import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { batteryCable } from '../../src/drain/drainReadings.ts';
import { keyOff, keyOffScene } from '../../src/drain/keyOff.ts';
import { takenAt } from '../../src/drain/taken.ts';
import { changesOf, faultOf } from '../../src/faults/fault.ts';
import { faultModes } from '../../src/faults/faultModes.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { network } from '../../src/solve/network.ts';
import { amperesInto, operatingPoint } from '../../src/solve/operatingPoint.ts';
import { supplySides } from '../../src/solve/supplySides.ts';
import { vehicle } from '../circuits/vehicle.ts';

/**
 * Nameplate draws of each vehicle with the key out, mA, as its circuit file writes them. Tolerance: memories draw
 * steadily but for their knee at low volts (under 1.5 %), a relay coil follows the battery's volts. The glow timer's
 * pull-up of 10 kΩ feeds its sender of 2.5 kΩ: 1 mA, a fifth of it in the sender, beside 0.1 mA asleep.
 */
const vehicles = [
  { name: 'light-van', mA: { P3: 4, A1: 4, G2: 1 }, live: 'G1.+' },
  { name: 'saloon', mA: { P3: 6, A3: 5, A1: 2, G2: 1 }, live: 'G1.+' },
  { name: 'motorcycle', mA: { G2: 0.2 }, live: 'G1.+' },
  { name: 'tractor', mA: { G2: 1 }, live: 'G1.+' },
  { name: 'diesel-estate', mA: { A2: 6, A1: 0.9, G2: 1, B4: 0.2 }, live: 'G1.+' },
  // 24 V: two batteries in series; the isolator is held by its coil, 60 Ω at 25.2 V.
  { name: 'truck', mA: { K8: 420, P2: 40, A1: 15, G3: 1 }, live: 'G2.+' },
  // Positive ground: minus is the live side.
  { name: 'classic-six-volt', mA: {}, live: 'G1.-' },
  { name: 'boat', mA: { G2: 0.1 }, live: 'G1.+' },
  { name: 'modern-saloon', mA: { A2: 9, A5: 6, A3: 4, A4: 3, A1: 1, G2: 1 }, live: 'G1.+' },
  { name: 'bench-board', mA: { A1: 5 }, live: 'G1.+' },
] as const;

describe.each(vehicles)('$name', ({ name, mA, live }) => {
  const { circuit } = vehicle(name);
  const sound = keyOff(circuit);

  test('healthy draws with the key out are those of the nameplates in its file', () => {
    const drawn = Object.fromEntries(sound.draws.map((d) => [d.part, d.amperes]));
    expect(Object.keys(drawn).sort()).toEqual(Object.keys(mA).sort());
    for (const [part, figure] of Object.entries(mA))
      expect(Math.abs(drawn[part]! * 1000 - figure), part).toBeLessThan(0.05 + 0.015 * figure);
    for (const d of sound.draws) expect(d.expected).toBe(d.amperes);
  });

  test('draws add up to what leaves the battery, with any single fault (Tellegen)', () => {
    const modes = faultModes(circuit);
    const scene = keyOffScene(circuit);
    fc.assert(
      fc.property(fc.nat(modes.length - 1), (k) => {
        const { part, mode } = modes[k]!;
        const at = operatingPoint(network(circuit, changesOf([faultOf(part, mode)])), scene);
        const taken = takenAt(at);
        const sum = [...taken.byPart.values()].reduce((a, b) => a + b, 0);
        const cable = Math.abs(amperesInto(at, batteryCable(circuit)!));
        // What leaks between two batteries in series passes one of them only.
        return Math.abs(sum - taken.amperes) <= 1e-9 * Math.max(1e-6, sum) && Math.abs(cable - taken.amperes) <= 0.03 * cable + 0.002;
      }),
      { numRuns: 150, seed: 20261125 },
    );
    expect(supplySides(circuit)!.live).toBe(live);
    expect(sound.amperes).toBeCloseTo(Math.abs(amperesInto(sound.at, batteryCable(circuit)!)), 4);
  });

  test('every draw tells a way that begins at the battery', () => {
    for (const d of sound.draws) {
      expect(d.feed.length, d.part).toBeGreaterThan(1);
      expect(d.feed[0]).toBe(live);
    }
  });
});

test('a lamp behind a bad joint draws its current, and the joint that takes a real share of the volts is named too', () => {
  const { circuit } = vehicle('light-van');
  const faults = ['S14 stuck closed', 'W54 8 Ω'].map((phrase) => readFault(phrase, circuit));
  const changes = changesOf(faults.flatMap((f) => (f.ok ? [f.value] : [])));
  const { draws, amperes } = keyOff(circuit, changes);
  expect(draws[0]!.part).toBe('E8');
  expect(draws[0]!.fuse).toBe('F1');
  expect(draws[1]!.part).toBe('W54');
  // 5 W at 12 V, from memory: about 0.4 A; with the circuit's own volts a little more.
  expect(amperes).toBeGreaterThan(0.3);
  expect(amperes).toBeLessThan(0.45);
});

test('the motorcycle is left at LOCK, not at its parking-lamp place', () => {
  const { circuit } = vehicle('motorcycle');
  expect(keyOffScene(circuit).key).toEqual({ angle: 0, came: 'back', in: false });
});

test("a battery's own leak runs past the clamp on its cable", () => {
  const { circuit } = vehicle('light-van');
  const leak = faultModes(circuit).find(({ mode }) => mode.subject === 'G1' && mode.words === 'leaks')!;
  const now = keyOff(circuit, changesOf([faultOf(leak.part, leak.mode, 0.05)]));
  expect(now.inside).toBeCloseTo(0.05, 3);
  expect(now.amperes).toBeCloseTo(keyOff(circuit).amperes, 4);
});

/** What stays before the isolator by the truck's own description: tachograph 40 mA and radio 15 mA. */
test('24 V: with the isolator open only what hangs before it draws, with it held its coil is most', () => {
  const { circuit } = vehicle('truck');
  const open = keyOff(circuit, [], { ...keyOffScene(circuit), hand: { S8: 'on' } });
  expect(open.draws.map((d) => d.part)).toEqual(['P2', 'A1']);
  expect(Math.abs(1000 * open.amperes - 55)).toBeLessThan(1);
  expect(keyOff(circuit).draws[0]!.part).toBe('K8');
});

test('the boat with its battery switch off draws nothing that could be read', () => {
  const { circuit } = vehicle('boat');
  expect(keyOff(circuit, [], { ...keyOffScene(circuit), hand: { S20: 'off' } }).amperes).toBeLessThan(1e-6);
});

test('positive ground: a leaking wire draws, and its way begins at the live minus', () => {
  const { circuit } = vehicle('classic-six-volt');
  const leak = faultModes(circuit).find(({ mode }) => mode.subject === 'W12' && mode.words === 'leaks');
  const modes = faultModes(circuit).filter(({ mode }) => mode.words === 'leaks');
  const { part, mode } = leak ?? modes[0]!;
  const now = keyOff(circuit, changesOf([faultOf(part, mode)]));
  expect(supplySides(circuit)).toEqual({ live: 'G1.-', grounded: 'G1.+' });
  for (const d of now.draws) expect(d.amperes).toBeGreaterThan(0);
});

test('an exact supply without resistance is a supply like any other', () => {
  const text = `
title: Board
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0 Ω }
  R1: { kind: resistor, resistance: 100 Ω }
  R2: { kind: resistor, resistance: 200 Ω }
wires:
  - { from: G1.+, to: R1.1 }
  - { from: R1.2, to: G1.- }
  - { from: G1.+, to: R2.1 }
  - { from: R2.2, to: G1.- }
  - { from: G1.-, to: ground }
`;
  const read = readCircuit(text, 'board.yaml', partKinds);
  if (!read.ok) throw new Error('not read');
  const { amperes, draws } = keyOff(read.value);
  expect(amperes).toBeCloseTo(0.18, 12);
  expect(draws.map((d) => d.part)).toEqual(['R1', 'R2']);
  expect(draws.map((d) => d.amperes)).toEqual([expect.closeTo(0.12, 12), expect.closeTo(0.06, 12)]);
});
