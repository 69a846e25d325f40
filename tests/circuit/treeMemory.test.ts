import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Placed } from '../../src/circuit/placed.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { TreeMemory } from '../../src/circuit/treeMemory.ts';
import { yamlTree } from '../../src/circuit/yamlTree.ts';
import { partKinds } from '../../src/parts/index.ts';

const library = readdirSync('circuits').flatMap((f) => (f.endsWith('.yaml') ? [readFileSync(`circuits/${f}`, 'utf8')] : []));
const faulty = readdirSync('tests/circuit/faulty').flatMap((f) =>
  f.endsWith('.yaml') ? [readFileSync(`tests/circuit/faulty/${f}`, 'utf8')] : [],
);

/** A tree with what is pointed at: ends of block maps and lists mean nothing. */
function plain(node: Placed): unknown {
  if (node.is === 'text') return [node.text, node.span.start, node.span.end, node.told];
  if (node.is === 'list') return [node.span.start, node.items.map(plain)];
  return [node.span.start, [...node.entries.values()].map((e) => [e.key, e.keySpan.start, e.keySpan.end, plain(e.node)])];
}
function same(text: string, memory: TreeMemory): void {
  const [one, two] = [yamlTree(text, 'x'), memory.tree(text, 'x')];
  expect(two.problems).toEqual(one.problems);
  expect(two.root && plain(two.root)).toEqual(one.root && plain(one.root));
  expect(readCircuit(text, 'x', partKinds, memory)).toEqual(readCircuit(text, 'x', partKinds));
}

test('every circuit of the library, and every faulty one, is read the same piece by piece, the first time and the second', () => {
  const memory = new TreeMemory();
  for (const text of [...library, ...faulty, ...library]) same(text, memory);
}, 60_000);

test('typing, signs put in and taken out anywhere: what is told is what a whole reading tells', () => {
  const memory = new TreeMemory();
  const board = library[0]!;
  const sign = fc.constantFrom(
    ...'{}[]:,-#"\'| \n&*!%',
    'a',
    '9',
    '\n  X9: { kind: splice }\n',
    '\n- a',
    '\n---\n',
    '\nparts:\n',
    ' # c\n',
    '\t',
    '\r\n',
  );
  fc.assert(
    fc.property(fc.nat(board.length), sign, fc.nat(3), (at, put, take) => same(board.slice(0, at) + put + board.slice(at + take), memory)),
    { seed: 61, numRuns: 60 },
  );
}, 120_000);

test('pieces that say the same at two places keep their own places', () => {
  const text = 'title: t\nparts:\n  A1: { kind: splice }\nwires:\n  - { from: A1, to: ground }\n  - { from: A1, to: ground }\n';
  same(text, new TreeMemory());
});
