import { expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { wrongFeedModes } from '../../src/faults/wrongFeed.ts';
import { partKinds } from '../../src/parts/index.ts';
import { keyless, sound } from '../circuit/phraseCircuit.ts';

const head = `title: Wrong feeds
parts:
  G1: { kind: supply, voltage: 12.6 V, resistance: 0.01 Ω }
  S1:
    kind: key-switch
    positions: { LOCK: { at: 0°, key-out: yes }, ACC: { at: 30° }, ON: { at: 60° } }
    contacts: { 30-75: [22°..70°], 30-15: [48°..70°] }
  J1: { kind: splice }
  J2: { kind: splice }
  F1: { kind: fuse, rating: 8 A }
  X1: { kind: connector, pins: 3 }
  S2: { kind: switch }
  H1: { kind: lamp, power: 5 W, name: Panel lamp }
  H2: { kind: lamp, power: 5 W }
`;
const feed = `wires:
  - { id: W1, from: G1.+, to: S1.30 }
  - { id: W2, from: S1.15, to: J1 }
  - { id: W3, from: S1.75, to: J2 }
  - { from: G1.-, to: ground }
  - { id: W4, from: H1.2, to: ground }
`;
function wired(...wires: readonly string[]): Circuit {
  const text = `${head}${feed}${wires.map((w) => `  - { ${w} }\n`).join('')}`;
  const read = readCircuit(text, 'feeds.yaml', partKinds);
  return sound(read);
}
/** What is not at the key switch itself: taps. */
const taps = (circuit: Circuit) =>
  wrongFeedModes(circuit)
    .filter((f) => f.mode.weight < 0.1)
    .map((f) => `${f.mode.subject} ${f.mode.words}: ${f.mode.text}`);

test('without a key switch nothing is on its wrong terminal', () => {
  expect(wrongFeedModes(keyless)).toEqual([]);
});

test('at the key switch every wire may be on every other terminal of it, on none twice and not on its own', () => {
  const swapped = wrongFeedModes(wired()).filter((f) => f.mode.weight === 0.1);
  expect(swapped.map((f) => `${f.part}: ${f.mode.subject} ${f.mode.words}: ${f.mode.text}`)).toEqual([
    'W1: W1.2 on S1.75: wire W1 is on S1.75 instead of S1.30',
    'W1: W1.2 on S1.15: wire W1 is on S1.15 instead of S1.30',
    'W2: W2.1 on S1.30: wire W2 is on S1.30 instead of S1.15',
    'W2: W2.1 on S1.75: wire W2 is on S1.75 instead of S1.15',
    'W3: W3.1 on S1.30: wire W3 is on S1.30 instead of S1.75',
    'W3: W3.1 on S1.15: wire W3 is on S1.15 instead of S1.75',
  ]);
});

test('a load that hangs straight on 15 may be fed from 75 instead, and from 30; by its name, else by its letter', () => {
  expect(taps(wired('id: W5, from: J1, to: H1.1'))).toEqual([
    'W5.1 on S1.30: Panel lamp is fed from S1.30 instead of J1.1',
    'W5.1 on S1.75: Panel lamp is fed from S1.75 instead of J1.1',
  ]);
  expect(taps(wired('id: W5, from: J2, to: H2.1', 'from: H2.2, to: ground'))).toEqual([
    'W5.1 on S1.30: H2 is fed from S1.30 instead of J2.1',
    'W5.1 on S1.15: H2 is fed from S1.15 instead of J2.1',
  ]);
  expect(taps(wired('id: W5, from: H1.1, to: J2')), 'drawn the other way round').toEqual([
    'W5.2 on S1.30: Panel lamp is fed from S1.30 instead of J2.1',
    'W5.2 on S1.15: Panel lamp is fed from S1.15 instead of J2.1',
  ]);
});

test('its wire is followed back through plugs, to the far end that is on the rail', () => {
  expect(taps(wired('id: W5, from: J1, to: H1.1, via: [X1.1]'))).toEqual([
    'W5a.1 on S1.30: Panel lamp is fed from S1.30 instead of J1.1',
    'W5a.1 on S1.75: Panel lamp is fed from S1.75 instead of J1.1',
  ]);
  expect(taps(wired('id: W5, from: J1, to: H1.1, via: [X1.1, X1.2]'))[0]).toMatch(/^W5a\.1 on S1\.30/);
});

test('a load behind a fuse is fed through it: the wire at the fuse is not followed on, and taps the rail there', () => {
  expect(taps(wired('id: W5, from: J1, to: F1.1', 'id: W6, from: F1.2, to: H1.1'))).toEqual([
    'W6.1 on S1.30: Panel lamp is fed from S1.30 instead of F1.2',
    'W6.1 on S1.75: Panel lamp is fed from S1.75 instead of F1.2',
  ]);
});

test.each([
  ['one behind a switch hangs on no rail', ['from: J1, to: S2.1', 'from: S2.2, to: H1.1']],
  ['one that is fed by two wires has no wire of its own', ['from: J1, to: H1.1', 'from: J2, to: H1.1']],
  ['one that hangs straight on the key switch is told there already', ['id: W5, from: S1.15, to: H1.1']],
  ['one without a feed has none to be wrong', []],
])('%s', (_what, wires) => {
  expect(taps(wired(...wires))).toEqual([]);
});

test('where a lamp is fed from the terminal of another, the joint is in the housing: only the first one is tapped', () => {
  const told = taps(wired('id: W5, from: J1, to: H1.1', 'id: W6, from: H1.1, to: H2.1', 'from: H2.2, to: ground'));
  expect(told).toEqual([]);
});

test('two wires crimped on one side of a plug end the way back there', () => {
  const two = wired(
    'id: W5, from: J1, to: X1.1a',
    'id: W6, from: X1.1b, to: H1.1',
    'id: W7, from: X1.1b, to: H2.1',
    'from: H2.2, to: ground',
  );
  expect(taps(two)).toEqual([
    'W6.1 on S1.30: Panel lamp is fed from S1.30 instead of X1.1b',
    'W6.1 on S1.75: Panel lamp is fed from S1.75 instead of X1.1b',
    'W7.1 on S1.30: H2 is fed from S1.30 instead of X1.1b',
    'W7.1 on S1.75: H2 is fed from S1.75 instead of X1.1b',
  ]);
  const one = wired('id: W5, from: J1, to: X1.1a', 'id: W6, from: X1.1b, to: H1.1');
  expect(taps(one)[0]).toBe('W5.1 on S1.30: Panel lamp is fed from S1.30 instead of J1.1');
});

test('when two rails are one, a tap is offered the other rails only', () => {
  expect(taps(wired('id: W8, from: J1, to: J2', 'id: W5, from: J1, to: H1.1')).map((t) => t.slice(0, 13))).toEqual(['W5.1 on S1.30']);
});
