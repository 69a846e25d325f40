import { expect, test } from 'vitest';
import { looseParts } from '../../src/circuit/looseParts.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { sound } from './phraseCircuit.ts';

test('loose terminals: all of a part, those that were hardly meant so, never what is optional or spare', () => {
  const circuit = sound(
    readCircuit(
      `title: Loose ends
parts:
  G1: { kind: supply, voltage: 12 V }
  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 5 W }
  X1: { kind: connector, pins: 2 }
  S3: { kind: multi-switch, states: { "0": [], "1": [30-a], "2": [30-b] } }
wires:
  - { from: G1.+, to: X1.1a }
  - { from: X1.1b, to: H1.1 }
  - { from: H1.2, to: G1.- }
  - { from: G1.+, to: S3.30 }
  - { from: S3.a, to: H1.1 }
`,
      'loose.yaml',
      partKinds,
    ),
  );
  const loose = (openAt: readonly string[] = [], named: readonly string[] = []) =>
    looseParts(circuit, { openAt: new Set(openAt), named: new Set(named) }).map((l) => [l.part.id, l.terminals, l.isWhole]);
  expect(loose()).toEqual([
    ['H2', ['H2.1', 'H2.2'], true],
    ['S3', ['S3.b'], false],
  ]);
  expect(loose(['H2.1'])).toEqual([
    ['H2', ['H2.2'], false],
    ['S3', ['S3.b'], false],
  ]);
  expect(loose(['S3.b'], ['H2'])).toEqual([]);
});
