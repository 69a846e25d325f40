import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { restScene } from '../../src/circuit/scenePhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { atRest } from '../../src/solve/atRest.ts';
import { hangsOn } from '../../src/solve/hangsOn.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { islands, wiringGraph } from '../../src/solve/wiringGraph.ts';
import { circuitOf } from '../report/madeCircuit.ts';
import { madeCircuit, ohms, quiet, source } from './exact/madeCircuit.ts';

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

test('the graph has every node, an edge for each closed branch between two of them, and no direction; the island of the reference comes first', () => {
  // A lamp between two open switches hangs on nothing.
  const loose = circuitOf(`title: Made
parts:
  H1: { kind: lamp, power: 5 W }
  S1: { kind: switch }
  S2: { kind: switch }
  G1: { kind: supply, voltage: 12 V }
wires:
  - { id: W1, from: S1.2, to: H1.1 }
  - { id: W2, from: H1.2, to: S2.1 }
  - { id: W3, from: G1.+, to: S1.1 }
  - { id: W4, from: S2.2, to: ground }
  - { id: W5, from: G1.-, to: ground }
`);
  const at = operatingPoint(network(loose), restScene(loose));
  const graph = wiringGraph(at);
  expect(graph.isDirected()).toBe(false);
  expect(graph.nodeCount()).toBe(at.network.pattern.nodes);
  const closed = at.network.branches.filter((b, k) => at.siemens[k]! > 0 && b.from !== b.to);
  expect(graph.edgeCount()).toBe(closed.length);
  const groups = islands(at);
  expect(groups[0]).toContain(at.network.reference);
  expect(groups.length).toBeGreaterThan(1);
  expect(groups.flat().sort()).toEqual([...at.network.nodeOf.keys()].sort());
});

test('a part that nobody touched has the first of its settings, stands, and is worked out once for each temperature', () => {
  const part = (id: string) => circuit.parts.get(id)!;
  const rest = atRest(part('S3'), 20);
  expect([rest.setting, rest.engine, rest.key, rest.ambient]).toEqual(['off', 'stopped', undefined, 20]);
  expect(atRest(part('S3'), 20)).toBe(rest);
  expect(atRest(part('S3'), -10).ambient).toBe(-10);
  expect(atRest(part('F1'), 20).setting).toBe('');
});

test('what begins and ends at one node is no edge, though it is closed; an open contact is none either', () => {
  const at = operatingPoint(
    network(
      madeCircuit([
        [source('G1', 12, 0.1), 'p', '0'],
        [ohms('W1', 0), 'p', 'q'],
        [ohms('R1', 5), 'p', 'q'],
        [ohms('R2', 6), 'q', '0'],
        [ohms('R3', Number.POSITIVE_INFINITY), 'q', '0'],
      ]),
    ),
    quiet,
  );
  expect(
    wiringGraph(at)
      .edges()
      .map((e) => e.name)
      .sort(),
  ).toEqual(['G1', 'R2']);
});
