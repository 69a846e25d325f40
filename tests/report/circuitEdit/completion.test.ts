import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { partKinds } from '../../../src/parts/index.ts';
import { completionsAt } from '../../../src/report/circuitEdit/completion.ts';
import { hoverAt } from '../../../src/report/circuitEdit/hover.ts';

const van = readFileSync('circuits/light-van.yaml', 'utf8');
/** `|` marks the cursor. */
function offered(marked: string): readonly string[] {
  const at = marked.indexOf('|');
  return completionsAt(marked.slice(0, at) + marked.slice(at + 1), at, partKinds)?.options.map((o) => o.label) ?? [];
}
const head =
  'title: t\nparts:\n  G1: { kind: battery }\n  XE1: { kind: ground-point }\n  X2: { kind: connector, pins: 2 }\n  S1:\n    kind: key-switch\n    positions: { ON: { at: 1° } }\n    table: { ON: [30-15] }\n';

describe('what is offered', () => {
  const rows: readonly (readonly [string, readonly string[], readonly string[]])[] = [
    ['ti|', ['title', 'parts'], ['kind']],
    [`${head}  |`, ['F1: fuse', 'XE2: ground-point', 'S2: switch'], ['W1: wire']],
    [`${head}  F1: { |`, ['kind'], ['rating']],
    [`${head}  F1: { kind: |`, ['fuse', 'lamp'], ['wire']],
    [`${head}  F1: { kind: fu| }`, ['fuse', 'fusible-link'], []],
    [`${head}  F1: { kind: fuse, | }`, ['rating', 'form', 'name', 'load'], ['kind']],
    [`${head}  F1: { kind: fuse, form: | }`, ['blade', 'ceramic'], []],
    [`${head}  F1: { kind: fuse, rating: 8 A, n| }`, ['name', 'note'], ['rating']],
    [`${head}  F1:\n    kind: fuse\n    |`, ['rating', 'place'], ['kind']],
    [`${head}  F1:\n    kind: fuse\n    form: |`, ['blade', 'glass'], []],
    [`${head}wires:\n  - { | }`, ['from', 'to', 'area'], ['kind']],
    [`${head}wires:\n  - { from: | }`, ['G1.+', 'S1.30', 'S1.15', 'XE1', 'ground'], ['XE1.1']],
    [`${head}wires:\n  - { from: S1.|`, ['S1.30', 'S1.15'], ['G1.+', 'ground']],
    [`${head}wires:\n  - { from: G1.+, to: S1.30, via: [|`, ['X2.1', 'X2.2'], []],
    [`${head}wires:\n  - { from: G1.+, to: S1.30, area: |`, ['0.75 mm²'], []],
    [`${head}wires:\n  - { from: G1.+, to: S1.30, colour: |`, ['RD', 'GN'], []],
    [`${head}engine: { crank: |`, ['G1', 'S1'], []],
    [`${head}engine: { |`, ['crank', 'spark'], []],
    [`${head}  # F1: { |`, [], ['kind']],
  ];
  test.each(rows)('%s', (marked, some, none) => {
    const got = offered(marked);
    expect(got).toEqual(expect.arrayContaining([...some]));
    for (const label of none) expect(got).not.toContain(label);
  });
});

test('nothing that is offered breaks on any text, at any place', () => {
  fc.assert(
    fc.property(fc.nat(van.length), fc.nat(van.length), fc.constantFrom('', '{', ': ', '"', '\n'), (cut, at, more) => {
      const text = van.slice(0, cut) + more + van.slice(cut + 9);
      const got = completionsAt(text, at, partKinds);
      const hover = hoverAt(text, at, partKinds);
      expect((got?.from ?? 0) <= at && (hover?.from ?? 0) <= at).toBe(true);
    }),
    { seed: 51, numRuns: 60 },
  );
}, 60_000);

test.each([
  ['F2: { kind: fuse', 1, /^F2 Fuse of brake/, /terminals: 1, 2/],
  ['kind: ballast', 8, /^ballast/, /resistance: 1\.5 Ω unless said/],
  ['rotor: 4 Ω', 2, /^rotor$/, /by: /],
  ['to: S1.30', 7, /^S1 Key switch/, /terminals: 30, 75, 15, 50/],
])('hover over %s', (word, by, title, line) => {
  const hover = hoverAt(van, van.indexOf(word) + by, partKinds);
  expect(hover?.title).toMatch(title);
  expect(hover?.lines.join('\n')).toMatch(line);
});
