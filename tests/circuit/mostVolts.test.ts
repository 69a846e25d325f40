import { describe, expect, test } from 'vitest';
import { mostVolts } from '../../src/circuit/mostVolts.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { keyless, sound } from './phraseCircuit.ts';

describe('the most volts that make sense', () => {
  const supplies = (...volts: readonly string[]) =>
    mostVolts(
      sound(
        readCircuit(
          `title: Supplies\nparts:\n${volts.map((v, k) => `  G${k + 1}: { kind: supply, voltage: ${v}, resistance: 1 Ω }\n`).join('')}  H1: { kind: lamp, power: 5 W }
wires:\n  - { from: G1.+, to: H1.1 }\n  - { from: G1.-, to: H1.2 }\n${volts.map((_, k) => (k === 0 ? '' : `  - { from: G${k + 1}.-, to: H1.2 }\n  - { from: G${k + 1}.+, to: H1.2 }\n`)).join('')}`,
          'supplies.yaml',
          partKinds,
        ),
      ),
    );
  test('four times the highest supply', () => {
    expect(supplies('12 V')).toEqual({ supply: 12, most: 48 });
    expect(supplies('6 V', '24 V')).toEqual({ supply: 24, most: 96 });
  });
  test('a supply of nothing says nothing', () => {
    expect(supplies('0 V')).toBeUndefined();
  });
  test('without a supply nobody knows', () => {
    expect(mostVolts({ ...keyless, parts: new Map([...keyless.parts].filter(([id]) => id !== 'G1')) })).toBeUndefined();
  });
});
