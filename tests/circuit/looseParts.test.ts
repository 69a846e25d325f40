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

test('an optional terminal, and a contact of which neither end is used, are no loose ends', () => {
  const circuit = sound(
    readCircuit(
      `title: Spare ends
parts:
  G1: { kind: battery, capacity: 60 Ah }
  G2: { kind: alternator, rated: 45 A }
  H1: { kind: lamp, power: 3 W }
  S3: { kind: multi-switch, states: { "0": [], "1": [30-a, 40-c, 50-d] } }
wires:
  - { from: G1.+, to: G2.B+ }
  - { from: G2.D+, to: H1.1 }
  - { from: H1.2, to: S3.a }
  - { from: S3.30, to: G1.+ }
  - { from: S3.50, to: G1.+ }
  - { from: G1.-, to: G2.31 }
`,
      'spare.yaml',
      partKinds,
    ),
  );
  const loose = looseParts(circuit, { openAt: new Set(), named: new Set() });
  // The alternator's W is not used; of the switch 40 and c lead nowhere together, while d was fed and leads nowhere.
  expect(loose.map((l) => [l.part.id, l.terminals, l.isWhole])).toEqual([['S3', ['S3.d'], false]]);
});
