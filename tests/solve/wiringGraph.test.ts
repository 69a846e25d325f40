import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { restScene } from '../../src/circuit/scenePhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { hangsOn } from '../../src/solve/hangsOn.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { islands } from '../../src/solve/wiringGraph.ts';

const text = readFileSync('circuits/bench-board.yaml', 'utf8');
const read = readCircuit(text, 'bench-board.yaml', partKinds);
if (!read.ok) throw new Error('the bench board must read');
const circuit = read.value;

test('topology: with the main fuse pulled the feed of the key switch is in no island with the battery', () => {
  const whole = islands(operatingPoint(network(circuit), restScene(circuit)));
  const scene = { ...restScene(circuit), apart: ['F1'] };
  const cut = islands(operatingPoint(network(circuit, [], { apart: ['F1'], bridged: [], swapped: [] }), scene));
  const together = (groups: readonly (readonly string[])[], a: string, b: string) => groups.some((g) => g.includes(a) && g.includes(b));
  expect(together(whole, 'F1.1', 'G1.+')).toBe(true);
  expect(together(whole, 'S1.30', 'F1.2')).toBe(true);
  expect(together(cut, 'F1.1', 'G1.+')).toBe(true);
  expect(whole.flat().length).toBe(cut.flat().length);
});

test('topology: the coil lamp hangs on its own fuse and contact in ON, and not on the fuse of the radio', () => {
  const scene = { ...restScene(circuit), key: { angle: 60, came: 'up' as const, in: true } };
  const at = operatingPoint(network(circuit), scene);
  const points = hangsOn(at, 'T1', ['F2', 'S1', 'F3']);
  expect(points).toContain('F2');
  expect(points).toContain('S1');
  expect(points).not.toContain('F3');
});
