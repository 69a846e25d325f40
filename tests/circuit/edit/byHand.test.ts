import { describe, expect, test } from 'vitest';
import { placesOf, wirePlace, wirePlaces } from '../../../src/circuit/edit/places.ts';
import { idsIn, type Step, stepEdits } from '../../../src/circuit/edit/steps.ts';
import { edited } from '../../../src/circuit/edit/textEdit.ts';

/** The text after a step, whole; undefined where the step cannot be done. */
function after(text: string, step: Step): string | undefined {
  const edits = stepEdits(text, step);
  return edits && edited(text, edits);
}

const block = `# of the boat
title: Boat # a small one
parts:
  # feeds
  G1: { kind: battery } # new
  S1: # the key
    kind: switch
    name: Key
  H1:
    kind: lamp
    power: 5 W # bulb
    with: S1 on
engine:
  crank: H1
  spark: [H1, S1]
  fuel: S1
`;
const withWires = block.replace(
  'engine:',
  `wires:
  - { from: G1.+, to: S1.1 } # feed
  - id: W2
    from: S1.2
    to: H1.1
    via: [X1.1, X2.1]
  # return
  - { from: H1.2, to: G1.- }
engine:`,
);
const flow =
  '{ title: Boat, parts: { G1: { kind: battery }, H1: { kind: lamp, power: 5 W } }, wires: [{ from: G1.+, to: H1.1 }, { id: W2, from: H1.2, to: G1.- }] }\n';

describe('steps on a file in blocks', () => {
  test.each<[string, string, Step, (text: string) => string]>([
    [
      'a title is changed and its comment stays',
      block,
      { do: 'head', key: 'title', held: 'Yacht' },
      (t) => t.replace('title: Boat', 'title: Yacht'),
    ],
    [
      'what the head has not yet stands above the parts',
      block,
      { do: 'head', key: 'ambient', held: '30 °C' },
      (t) => t.replace('parts:', 'ambient: 30 °C\nparts:'),
    ],
    [
      'a title that is missing stands first',
      block.replace('title: Boat # a small one\n', ''),
      { do: 'head', key: 'title', held: 'Yacht' },
      (t) => t.replace('parts:', 'title: Yacht\nparts:'),
    ],
    [
      'a key of the head goes with its line',
      block,
      { do: 'head', key: 'title', held: undefined },
      (t) => t.replace('title: Boat # a small one\n', ''),
    ],
    ['what is not there goes without a trace', block, { do: 'head', key: 'about', held: undefined }, (t) => t],
    [
      'an engine stands behind all',
      block.replace(/engine:[\s\S]*/, ''),
      { do: 'head', key: 'engine', held: { crank: 'H1', spark: ['H1'], fuel: [] } },
      (t) => `${t}engine: { crank: H1, spark: [H1], fuel: [] }\n`,
    ],
    [
      'the first wire stands before the engine',
      block,
      { do: 'wire', wire: { id: 'W1', from: 'G1.+', to: 'S1.1', colour: '', note: undefined, via: [] } },
      (t) => t.replace('engine:', 'wires:\n  - { id: W1, from: G1.+, to: S1.1 }\nengine:'),
    ],
    [
      'a further wire stands last',
      withWires,
      { do: 'wire', wire: { from: 'H1.2', to: 'ground', via: ['X1.2'] } },
      (t) => t.replace('engine:', '  - { from: H1.2, to: ground, via: [X1.2] }\nengine:'),
    ],
    [
      'a further part stands last, in the same column',
      withWires,
      { do: 'part', id: 'F1', held: { kind: 'fuse', rating: '8 A' } },
      (t) => t.replace('wires:', '  F1: { kind: fuse, rating: 8 A }\nwires:'),
    ],
    [
      'a figure is changed before its comment',
      withWires,
      { do: 'set', id: 'H1', key: 'power', held: '10 W' },
      (t) => t.replace('5 W', '10 W'),
    ],
    [
      'a key of a part goes with its line',
      withWires,
      { do: 'set', id: 'H1', key: 'power', held: undefined },
      (t) => t.replace('    power: 5 W # bulb\n', ''),
    ],
    [
      'the first key of a wire in a block goes, its dash stays',
      withWires,
      { do: 'set', id: 'W2', key: 'id', held: undefined },
      (t) => t.replace('- id: W2\n    from', '- from'),
    ],
    [
      'a wire without id is found by its ends',
      withWires,
      { do: 'set', id: 'G1/+-S1/1', key: 'area', held: '4 mm²' },
      (t) => t.replace('to: S1.1 }', 'to: S1.1, area: 4 mm² }'),
    ],
    [
      'a section of a wire is its wire',
      withWires,
      { do: 'set', id: 'W2b', key: 'note', held: 'left' },
      (t) => t.replace('via: [X1.1, X2.1]\n', 'via: [X1.1, X2.1]\n    note: left\n'),
    ],
    [
      'a wire that got no id gets one',
      withWires,
      { do: 'rename', id: 'H1/2-G1/-', into: 'W3' },
      (t) => t.replace('- { from: H1.2', '- { id: W3, from: H1.2'),
    ],
    ['a wire that has one gets another', withWires, { do: 'rename', id: 'W2', into: 'W9' }, (t) => t.replace('id: W2', 'id: W9')],
    ['a part is called otherwise wherever it is named', withWires, { do: 'rename', id: 'S1', into: 'S7' }, (t) => t.replaceAll('S1', 'S7')],
    [
      'a connector that went is passed no more',
      withWires.replace('  S1:', '  X1: { kind: connector, pins: 1 }\n  S1:'),
      { do: 'remove', ids: ['X1'] },
      (t) => t.replace('  X1: { kind: connector, pins: 1 }\n', '').replace('[X1.1, X2.1]', '[X2.1]'),
    ],
    [
      'without what cranks there is no engine, and no load names what it hung on',
      withWires,
      { do: 'remove', ids: ['H1'] },
      (t) =>
        t
          .replace(/ {2}H1:[\s\S]*?wires:/, 'wires:')
          .replace(/ {2}- id: W2[\s\S]*?X2\.1\]\n/, '')
          .replace('  - { from: H1.2, to: G1.- }\n', '')
          .replace(/engine:[\s\S]*/, ''),
    ],
    [
      'of the engine only goes what went',
      withWires,
      { do: 'remove', ids: ['S1'] },
      (t) =>
        t
          .replace(/ {2}S1:[\s\S]*? {2}H1:/, '  H1:')
          .replace('    with: S1 on\n', '')
          .replace('  - { from: G1.+, to: S1.1 } # feed\n', '')
          .replace(/ {2}- id: W2[\s\S]*?X2\.1\]\n/, '')
          .replace('[H1, S1]', '[H1]')
          .replace('  fuel: S1\n', ''),
    ],
    [
      'single wires go with their lines',
      withWires,
      { do: 'remove', ids: ['W2', 'G1/+-S1/1'] },
      (t) => t.replace('  - { from: G1.+, to: S1.1 } # feed\n', '').replace(/ {2}- id: W2[\s\S]*?X2\.1\]\n/, ''),
    ],
    [
      'nothing left is written as an empty list',
      withWires,
      { do: 'remove', ids: ['W2', 'G1/+-S1/1', 'H1/2-G1/-'] },
      (t) => t.replace(/wires:[\s\S]*?engine:/, 'wires: []\nengine:'),
    ],
  ])('%s', (_, text, step, wanted) => {
    const got = after(text, step);
    expect(got).toBe(wanted(text));
  });
});

describe('steps on a file in braces', () => {
  test.each<[string, Step, string, string]>([
    ['a head', { do: 'head', key: 'about', held: 'mine' }, '}] }', '}], about: mine }'],
    ['a part', { do: 'part', id: 'F1', held: { kind: 'fuse', rating: '8 A' } }, '5 W } }', '5 W }, F1: { kind: fuse, rating: 8 A } }'],
    ['a wire', { do: 'wire', wire: { from: 'H1.2', to: 'ground' } }, 'G1.- }]', 'G1.- }, { from: H1.2, to: ground }]'],
    ['a key more', { do: 'set', id: 'H1', key: 'name', held: 'Lamp' }, '5 W }', '5 W, name: Lamp }'],
    ['a key less', { do: 'set', id: 'H1', key: 'power', held: undefined }, ', power: 5 W', ''],
    ['the first key less', { do: 'set', id: 'H1', key: 'kind', held: undefined }, 'kind: lamp, ', ''],
    ['the only key', { do: 'set', id: 'G1', key: 'kind', held: undefined }, '{ kind: battery }', '{}'],
    ['the last wire', { do: 'remove', ids: ['W2'] }, ', { id: W2, from: H1.2, to: G1.- }', ''],
    ['the first wire', { do: 'remove', ids: ['G1/+-H1/1'] }, '{ from: G1.+, to: H1.1 }, ', ''],
    ['all wires', { do: 'remove', ids: ['G1/+-H1/1', 'W2'] }, '[{ from: G1.+, to: H1.1 }, { id: W2, from: H1.2, to: G1.- }]', '[]'],
    ['a name for a wire without one', { do: 'rename', id: 'G1/+-H1/1', into: 'W1' }, '{ from: G1.+', '{ id: W1, from: G1.+'],
  ])('%s', (_, step, before, wanted) => {
    expect(flow).toContain(before);
    expect(after(flow, step)).toBe(flow.replace(before, wanted));
  });

  test('what is not there yet is put in whole', () => {
    const bare = '{ title: Boat }';
    expect(after(bare, { do: 'part', id: 'G1', held: { kind: 'battery' } })).toBe('{ title: Boat, parts: { G1: { kind: battery } } }');
    expect(after(bare, { do: 'wire', wire: { from: 'a', to: 'b' } })).toBe('{ title: Boat, wires: [{ from: a, to: b }] }');
    const empty = '{ title: Boat, parts: {}, wires: [] }';
    expect(after(empty, { do: 'part', id: 'G1', held: { kind: 'battery' } })).toBe(
      '{ title: Boat, parts: { G1: { kind: battery } }, wires: [] }',
    );
    expect(after('{}', { do: 'head', key: 'title', held: 'Boat' })).toBe('{ title: Boat }');
  });
});

test.each<[string, string, Step]>([
  ['a part that is there', block, { do: 'part', id: 'H1', held: { kind: 'lamp' } }],
  ['a wire by an id that is there', withWires, { do: 'wire', wire: { id: 'W2', from: 'a', to: 'b' } }],
  ['a wire by the id of a part', withWires, { do: 'wire', wire: { id: 'H1', from: 'a', to: 'b' } }],
  ['a key of what is not there', block, { do: 'set', id: 'H9', key: 'power', held: '5 W' }],
  ['another name for what is not there', block, { do: 'rename', id: 'H9', into: 'H8' }],
  ['a name that is taken', withWires, { do: 'rename', id: 'H1', into: 'W2' }],
  ['taking out what is not there', block, { do: 'remove', ids: ['H9'] }],
  ['a step into what is no YAML', 'title: [', { do: 'head', key: 'title', held: 'x' }],
  ['a step into a list', '- a\n', { do: 'head', key: 'title', held: 'x' }],
  ['another name in an empty file', '', { do: 'rename', id: 'a', into: 'b' }],
  ['taking out of an empty file', ' \n', { do: 'remove', ids: ['a'] }],
  ['taking a key out of an empty file', '', { do: 'head', key: 'title', held: undefined }],
])('%s is not done', (_, text, step) => {
  expect(stepEdits(text, step)).toBeUndefined();
});

test('wires are named as the reader names them, by their ends where they have no id, and a section by its wire', () => {
  const places = placesOf(withWires)!;
  expect(wirePlaces(places).map((w) => [w.id, w.from, w.to, w.index])).toEqual([
    ['G1/+-S1/1', 'G1.+', 'S1.1', 0],
    ['W2', 'S1.2', 'H1.1', 1],
    ['H1/2-G1/-', 'H1.2', 'G1.-', 2],
  ]);
  expect([...idsIn(places)]).toEqual(['G1', 'S1', 'H1', 'G1/+-S1/1', 'W2', 'H1/2-G1/-']);
  expect(['W2', 'W2a', 'W2ab', 'W2abc', 'W2A', 'W3', 'W'].map((id) => wirePlace(places, id)?.index)).toEqual([
    1,
    1,
    1,
    undefined,
    undefined,
    undefined,
    undefined,
  ]);
});
