import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import type { Circuit } from '../../../src/circuit/circuit.ts';
import { placesOf, wirePlaces } from '../../../src/circuit/edit/places.ts';
import { nextId, type Step, stepEdits } from '../../../src/circuit/edit/steps.ts';
import { edited } from '../../../src/circuit/edit/textEdit.ts';
import { readCircuit } from '../../../src/circuit/readCircuit.ts';
import { partKinds } from '../../../src/parts/index.ts';
import { benchText } from '../benchText.ts';

const library = readdirSync('circuits')
  .filter((f) => f.endsWith('.yaml'))
  .map((f) => readFileSync(`circuits/${f}`, 'utf8'));
/** The same circuits as JSON, which is all flow style. */
const asJson = JSON.stringify(parse(library[0]!, { schema: 'failsafe' }), null, 2);
const flat = JSON.stringify(parse(library[1]!, { schema: 'failsafe' }));
const all = [benchText, ...library, asJson, flat];

function done(text: string, ...steps: readonly Step[]): string {
  return steps.reduce((now, step) => {
    const edits = stepEdits(now, step);
    if (!edits) throw new Error(`${step.do} cannot be done`);
    return edited(now, edits);
  }, text);
}
function read(text: string): Circuit {
  const got = readCircuit(text, 'x', partKinds);
  if (!got.ok) throw new Error(got.problems.map((p) => `${p.line}:${p.column} ${p.what}`).join('\n') + text.slice(0, 300));
  return got.value;
}
const comments = (text: string) => text.match(/#.*$/gm) ?? [];

describe.each(all.map((text, k) => [k, text] as const))('file %i', (_, text) => {
  const circuit = read(text);
  const parts = [...circuit.parts.values()].filter((p) => p.kind.isWire !== true);

  /** A dozen of them, spread over the file. */
  const some = parts.filter((_, k) => k % Math.ceil(parts.length / 12) === 0);

  test('a part put in and taken out again leaves the text as it was', () => {
    const held = { kind: 'fuse', rating: '8 A', name: 'Fuse: of "it"' };
    const more = done(text, { do: 'part', id: 'F99', held });
    expect(read(more).parts.get('F99')?.params['rating']).toBe(8);
    expect(comments(more)).toEqual(comments(text));
    expect(done(more, { do: 'remove', ids: ['F99'] })).toBe(text.endsWith('\n') || text.startsWith('{') ? text : `${text}\n`);
  });

  test('a wire put in and taken out again leaves the text as it was', () => {
    const first = parts.find((p) => p.kind.terminals(p).length > 1)!;
    const [a, b] = first.kind.terminals(first).map((t) => `${first.id}.${t.name}`);
    const more = done(text, { do: 'wire', wire: { id: 'W999', from: a!, to: b!, area: '1 mm²', length: '2 m', colour: 'RD/BK' } });
    expect(read(more).parts.get('W999')?.params['length']).toBe(2);
    expect(done(more, { do: 'remove', ids: ['W999'] })).toBe(text.endsWith('\n') || text.startsWith('{') ? text : `${text}\n`);
  });

  test('a part renamed and named back leaves the text as it was, and the circuit reads in between', () => {
    for (const { id } of some) {
      const other = done(text, { do: 'rename', id, into: `Q${id}q` });
      expect(read(other).parts.has(`Q${id}q`)).toBe(true);
      expect(done(other, { do: 'rename', id: `Q${id}q`, into: id }).replaceAll('"', '')).toBe(text.replaceAll('"', ''));
    }
  });

  test('a part taken out goes with its wires, and nothing names it any more', () => {
    for (const { id } of some) {
      const less = done(text, { do: 'remove', ids: [id] });
      const places = placesOf(less)!;
      expect(wirePlaces(places).every((w) => ![w.from, w.to].some((e) => e === id || e.startsWith(`${id}.`)))).toBe(true);
      const problems = readCircuit(less, 'x', partKinds).problems.filter((p) => p.severity === 'error');
      expect(problems).toEqual([]);
    }
  }, 60_000);

  test('a parameter set, changed and taken out', () => {
    const id = parts[0]!.id;
    const set = done(text, { do: 'set', id, key: 'note', held: 'see page 4: left' });
    expect(read(set).parts.get(id)?.note).toBe('see page 4: left');
    const changed = done(set, { do: 'set', id, key: 'note', held: 'right' });
    expect(read(changed).parts.get(id)?.note).toBe('right');
    expect(done(changed, { do: 'set', id, key: 'note', held: undefined })).toBe(text);
  });
});

describe('from nothing', () => {
  test('the first steps write the whole file', () => {
    const text = done(
      '',
      { do: 'head', key: 'title', held: 'Scooter' },
      { do: 'part', id: 'G1', held: { kind: 'battery' } },
      { do: 'part', id: 'E1', held: { kind: 'lamp', power: '5 W' } },
      { do: 'wire', wire: { from: 'G1.+', to: 'E1.1' } },
      { do: 'wire', wire: { id: 'W2', from: 'E1.2', to: 'G1.-', area: '1 mm²' } },
      { do: 'head', key: 'about', held: 'Mine: built by hand' },
    );
    expect(text).toBe(
      'title: Scooter\nabout: "Mine: built by hand"\nparts:\n  G1: { kind: battery }\n  E1: { kind: lamp, power: 5 W }\nwires:\n  - { from: G1.+, to: E1.1 }\n  - { id: W2, from: E1.2, to: G1.-, area: 1 mm² }\n',
    );
    expect(read(text).parts.size).toBe(4);
  });
  test('wires before parts, and empty containers', () => {
    for (const start of [
      'title: t\nparts: {}\nwires: []\n',
      'title: t\nparts:\nwires:\n',
      'title: t\nwires:\n  # none yet\nparts:\n',
      'title: t',
    ])
      expect(
        read(
          done(
            start,
            { do: 'part', id: 'G1', held: { kind: 'battery' } },
            { do: 'part', id: 'R1', held: { kind: 'resistor', resistance: '1 Ω' } },
            { do: 'wire', wire: { from: 'G1.+', to: 'R1.1' } },
            { do: 'wire', wire: { from: 'R1.2', to: 'G1.-' } },
          ),
        ).parts.size,
      ).toBe(4);
  });
  test('a key switch gets lines of its own', () => {
    const held = {
      kind: 'key-switch',
      positions: { OFF: { at: '0°', 'key-out': 'yes' }, ON: { at: '60°' }, START: { at: '90°', 'springs-to': 'ON' } },
      table: { OFF: [], ON: ['30-15'], START: ['30-15', '30-50'] },
    };
    const text = done('title: t\nparts:\n  G1: { kind: battery }\n', { do: 'part', id: 'S1', held });
    expect(text).toContain('  S1:\n    kind: key-switch\n    positions: { OFF:');
  });
});

test('what cannot be done is not done', () => {
  const text = 'title: t\nparts:\n  G1: { kind: battery }\n';
  for (const step of [
    { do: 'part', id: 'G1', held: { kind: 'battery' } },
    { do: 'rename', id: 'G1', into: 'G1' },
    { do: 'rename', id: 'G9', into: 'G2' },
    { do: 'remove', ids: ['G9'] },
    { do: 'set', id: 'G9', key: 'a', held: 'b' },
  ] as const)
    expect(stepEdits(text, step)).toBeUndefined();
  expect(stepEdits('parts: {', { do: 'head', key: 'title', held: 'x' })).toBeUndefined();
});

test('the next free id', () => {
  expect(nextId('F', new Set(['F1', 'F12', 'FX3', 'G5']))).toBe('F13');
  expect(nextId('X', new Set(['XE4']))).toBe('X1');
});

describe('the first entry under a key that holds nothing yet', () => {
  const part: Step = { do: 'part', id: 'F1', held: { kind: 'fuse', rating: '8 A' } };
  const wire: Step = { do: 'wire', wire: { from: 'G1.+', to: 'F1.1' } };
  test.each([
    ['parts:\n', 'parts:\n  F1: { kind: fuse, rating: 8 A }\n'],
    ['parts: {}\n', 'parts:\n  F1: { kind: fuse, rating: 8 A }\n'],
    ['parts: # none yet\nwires: []\n', 'parts:\n  F1: { kind: fuse, rating: 8 A } # none yet\nwires: []\n'],
    ['parts:   \n\nwires: []\n', 'parts:\n  F1: { kind: fuse, rating: 8 A }   \n\nwires: []\n'],
    ['title: T\n', 'title: T\nparts:\n  F1: { kind: fuse, rating: 8 A }\n'],
    ['title: T\nwires: []\n', 'title: T\nparts:\n  F1: { kind: fuse, rating: 8 A }\nwires: []\n'],
    ['{ "parts": {} }\n', '{ "parts": { F1: { kind: fuse, rating: 8 A } } }\n'],
    ['{ title: T }\n', '{ title: T, parts: { F1: { kind: fuse, rating: 8 A } } }\n'],
  ])('a part in %j', (text, more) => {
    expect(parse(done(text, part), { schema: 'failsafe' }).parts).toEqual({ F1: { kind: 'fuse', rating: '8 A' } });
    expect(done(text, part)).toBe(more);
  });
  test.each([
    'wires:\n',
    'wires: []\n',
    'wires: # none\nengine: { crank: M1 }\n',
    'parts: {}\nengine: { crank: M1 }\n',
    '{ "wires": [] }\n',
    '{ parts: {} }\n',
  ])('a wire in %j', (text) => {
    const more = parse(done(text, wire), { schema: 'failsafe' });
    expect(more.wires).toEqual([{ from: 'G1.+', to: 'F1.1' }]);
    const { wires: _, ...rest } = parse(text, { schema: 'failsafe' });
    expect(more).toEqual({ ...rest, wires: more.wires });
  });
});

test('what stands between a key and its value stays where both are in one line; a value of its own lines comes up to the key', () => {
  const set = (entry: string, held: string) =>
    done(`parts:\n  F1: { kind: fuse, rating: 8 A }\n${entry}`, { do: 'head', key: 'title', held });
  const head = (entry: string, held = 'New') => set(entry, held).slice(set(entry, held).indexOf('title'));
  expect(head('title: Old\n')).toBe('title: New\n');
  expect(head('title:    Old # mine\n')).toBe('title:    New # mine\n');
  expect(head('title:\tOld\n')).toBe('title:\tNew\n');
  expect(head('title:\n  Old\n')).toBe('title: New\n');
  expect(head('title:  \n  Old\n')).toBe('title: New\n');
  expect(head('title: # said below\n  Old\nwires: []\n')).toBe('title: New\nwires: []\n');
  expect(head('title:\n')).toBe('title: New\n');
  expect(head('title: |\n  Old\n  and long\nwires: []\n')).toBe('title: New\nwires: []\n');
});

test('a text of several lines ends with its last line: what stands behind it is kept, and what is put behind it follows it', () => {
  const part = (id: string) => `  ${id}:\n    kind: fuse\n    rating: 8 A\n    note: |\n      long\n      text\n`;
  const text = `title: T\nparts:\n${part('F1')}${part('F2')}  F3: { kind: fuse, rating: 8 A }\nwires: []\n`;
  expect(done(text, { do: 'remove', ids: ['F1'] })).toBe(text.replace(part('F1'), ''));
  expect(done(text, { do: 'remove', ids: ['F2'] })).toBe(text.replace(part('F2'), ''));
  expect(done(text, { do: 'remove', ids: ['F1', 'F2'] })).toBe(text.replace(part('F1') + part('F2'), ''));
  expect(done(text, { do: 'set', id: 'F2', key: 'note', held: 'short' })).toBe(
    text.replace(part('F2'), part('F2').replace('|\n      long\n      text', 'short')),
  );
  expect(done(text, { do: 'set', id: 'F1', key: 'place', held: 'door' })).toBe(text.replace(part('F1'), `${part('F1')}    place: door\n`));
  expect(done(text, { do: 'set', id: 'F1', key: 'note', held: undefined })).toBe(
    text.replace(part('F1'), part('F1').replace('    note: |\n      long\n      text\n', '')),
  );
  const last = `title: T\nparts:\n${part('F1')}${part('F2')}`;
  expect(done(last, { do: 'part', id: 'F3', held: { kind: 'fuse', rating: '8 A' } })).toBe(`${last}  F3: { kind: fuse, rating: 8 A }\n`);
  expect(done(last.trimEnd(), { do: 'part', id: 'F3', held: { kind: 'fuse', rating: '8 A' } })).toBe(
    `${last}  F3: { kind: fuse, rating: 8 A }\n`,
  );
  expect(done(last, { do: 'remove', ids: ['F2'] })).toBe(last.replace(part('F2'), ''));
  // Folded, and with empty lines behind it.
  const folded = text.replaceAll('note: |', 'note: >-').replace('  F3', '\n\n  F3');
  expect(done(folded, { do: 'remove', ids: ['F2'] })).toBe(folded.replace(part('F2').replace('|', '>-'), ''));
});

test('what a file ends with stays whole: a text of several lines without a last line end, blanks that are no line ends', () => {
  const about = 'title: T\nabout: |\n  a\n  b';
  const ambient: Step = { do: 'head', key: 'ambient', held: '5 °C' };
  expect(done(about, ambient)).toBe(`${about}\nambient: 5 °C\n`);
  expect(done(`${about}\n`, ambient)).toBe(`${about}\nambient: 5 °C\n`);
  const hard = 'title: T\nabout: |\n  a\u00a0\nparts: {}\n';
  expect(done(hard, { do: 'head', key: 'about', held: 'y' })).toBe('title: T\nabout: y\nparts: {}\n');
});

test('a part renamed leaves every `with` that does not name it as it was written', () => {
  const text =
    'title: T\nparts:\n  H1: { kind: lamp, power: 5 W, with: "S1 on" }\n  H2: { kind: lamp, power: 5 W, with: [ "S2 on", S1 on ] }\n  S1: { kind: switch }\n  S2: { kind: switch }\n';
  expect(done(text, { do: 'rename', id: 'H2', into: 'H9' })).toBe(text.replace('H2:', 'H9:'));
  expect(done(text, { do: 'rename', id: 'S2', into: 'S9' })).toBe(text.replace('"S2 on"', 'S9 on').replace('S2:', 'S9:'));
});
