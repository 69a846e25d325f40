import { expect, test } from 'vitest';
import { readCircuit } from '../../../src/circuit/readCircuit.ts';
import { partKinds } from '../../../src/parts/index.ts';
import { assumptions, uncertainShares } from '../../../src/report/circuitEdit/assumptions.ts';

const text = `title: t
parts:
  G1: { kind: battery, voltage: 12 V, capacity: 50 Ah, cold-cranking: 420 A }
  A1: { kind: unknown-load, terminals: [30, 15, 31], current: 0 A, load: no }
  E1: { kind: lamp, power: 5 W }
wires:
  - { id: W1, from: G1.+, to: A1.30, area: 1.5 mm², length: unknown }
  - { id: W2, from: G1.+, to: A1.15, length: 2 m }
  - { id: W3, from: G1.+, to: E1.1, area: 1 mm² }
  - { from: A1.31, to: G1.- }
  - { id: W4, from: E1.2, to: G1.-, area: 1 mm², length: 2 m }
`;
const read = readCircuit(text, 'x', partKinds);

test('a gap takes a stated default, counts as not given, and the circuit is read', () => {
  expect(read.ok && read.value.parts.get('W1')?.params['length']).toBe(1);
  expect(read.ok && read.value.parts.get('W1')?.given.has('length')).toBe(false);
  // Where there is neither a guess nor a default the word is no quantity.
  expect(readCircuit(text.replace('power: 5 W', 'power: unknown'), 'x', partKinds).ok).toBe(false);
});

test('what was assumed is listed with what knowing it would gain; ideal joints and full wires are not', () => {
  if (!read.ok) throw new Error('it does not read');
  const found = assumptions(read.value);
  expect(found.map((a) => `${a.part} ${a.parameter} ${a.taken}`)).toEqual([
    'W1 length 1 m',
    'W2 area 1 mm²',
    'W3 length no resistance',
    'A1 current 0 A',
  ]);
  for (const a of found) expect(a.text).toContain(a.gain);
});

test('how far a part may be off because of it', () => {
  if (!read.ok) throw new Error('it does not read');
  expect(Object.fromEntries(uncertainShares(read.value))).toEqual({ W1: 0.5, W2: 0.5, W3: 0.5, A1: 1 });
});
