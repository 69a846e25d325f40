import { describe, expect, test } from 'vitest';
import { yamlFlow, yamlText } from '../../src/circuit/edit/written.ts';
import { entryLines } from '../../src/circuit/edit/writtenPart.ts';
import { kindsFitting } from '../../src/circuit/guess/kindsFitting.ts';
import { checkId, isIdForm } from '../../src/circuit/ids.ts';
import { keySwitchOf, keyTakenOut, restKey } from '../../src/circuit/keySwitchOf.ts';
import { looseParts } from '../../src/circuit/looseParts.ts';
import { mostVolts } from '../../src/circuit/mostVolts.ts';
import type { KeyModel } from '../../src/circuit/part.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { wordsJoined } from '../../src/circuit/wordsJoined.ts';
import { partKinds } from '../../src/parts/index.ts';
import { bench, keyless, library, sound } from './phraseCircuit.ts';

test.each([
  [[], ''],
  [['a'], 'a'],
  [['a', 'b'], 'a and b'],
  [['a', 'b', 'c'], 'a, b and c'],
])('%j are joined to `%s`', (words, joined) => {
  expect(wordsJoined(words)).toBe(joined);
});

describe('ids', () => {
  const told = (id: string): readonly string[] => {
    const codes: string[] = [];
    const holds = checkId(id, { start: 0, end: 1 } as never, (_at, problem) => {
      codes.push(problem.code);
      expect(problem.mend).toHaveLength(1);
    });
    expect(holds).toBe(codes.length === 0);
    return codes;
  };
  test.each(['F3', 'S1/15-R1/1', "X2'", 'Ü1', '1a', 'a'.repeat(60)])('%s can be one', (id) => {
    expect(told(id)).toEqual([]);
    expect(isIdForm(id)).toBe(true);
  });
  test.each(['', 'a b', '-a', '_a', 'a.b', 'a'.repeat(61), 'a!'])('%j cannot', (id) => {
    expect(told(id)).toEqual(['id-form']);
  });
  test.each(['ground', 'block', 'engine', 'key', 'jumper', 'between', 'after', 'release', 'off', 'on'])('`%s` is taken', (id) => {
    expect(told(id)).toEqual(['id-taken']);
  });
});

describe('the most volts that make sense', () => {
  const supplies = (...volts: readonly string[]) =>
    mostVolts(
      sound(
        readCircuit(
          `title: Supplies\nparts:\n${volts.map((v, k) => `  G${k + 1}: { kind: supply, voltage: ${v}, resistance: 1 Ω }\n`).join('')}  H1: { kind: lamp, power: 5 W }
wires:\n  - { from: G1.+, to: H1.1 }\n  - { from: G1.-, to: H1.2 }\n${volts.map((_, k) => (k === 0 ? '' : `  - { from: G${k + 1}.-, to: H1.2 }\n  - { from: G${k + 1}.+, to: H1.2 }\n`)).join('')}`,
          'supplies.yaml',
          partKinds,
        ),
      ),
    );
  test('four times the highest supply', () => {
    expect(supplies('12 V')).toEqual({ supply: 12, most: 48 });
    expect(supplies('6 V', '24 V')).toEqual({ supply: 24, most: 96 });
  });
  test('a supply of nothing says nothing', () => {
    expect(supplies('0 V')).toBeUndefined();
  });
  test('without a supply nobody knows', () => {
    expect(mostVolts({ ...keyless, parts: new Map([...keyless.parts].filter(([id]) => id !== 'G1')) })).toBeUndefined();
  });
});

describe('the key', () => {
  const position = (name: string, angle: number, keyOut: boolean) => ({ name, angle, keyOut });
  const model = (positions: readonly object[], contacts: readonly object[] = []): KeyModel =>
    ({ positions, contacts }) as unknown as KeyModel;
  test('of the library stands at its first position, and comes out where fewest contacts are closed', () => {
    const { model: van } = keySwitchOf(library('light-van'))!;
    expect(restKey(van)).toEqual({ angle: 0, came: 'up', in: true });
    expect(keyTakenOut(van)).toEqual({ angle: 0, came: 'back', in: false });
    expect(keySwitchOf(keyless)).toBeUndefined();
    expect(keySwitchOf(keyless)).toBeUndefined();
    expect(keySwitchOf(bench)?.part.id).toBe('S1');
  });
  test('that nothing lets go is taken out at the first position, wherever that is', () => {
    expect(keyTakenOut(model([position('A', 20, false), position('B', 50, false)]))).toEqual({ angle: 20, came: 'back', in: false });
    expect(restKey(model([position('A', 20, false)]))).toEqual({ angle: 20, came: 'up', in: true });
    expect([restKey(model([])).angle, keyTakenOut(model([])).angle]).toEqual([0, 0]);
  });
});

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

describe('what is written into a file', () => {
  test('texts, lists and maps, nothing left of what has no value', () => {
    expect(yamlFlow({})).toBe('{}');
    expect(yamlFlow({ a: undefined })).toBe('{}');
    expect(yamlFlow({ a: '8 A', b: undefined, c: ['x', 'y: z'] })).toBe('{ a: 8 A, c: [x, "y: z"] }');
    expect(yamlText('a\u2028b\u2029')).toBe('"a\\u2028b\\u2029"');
    expect([yamlText(' a'), yamlText('---'), yamlText('...'), yamlText('')]).toEqual(['" a"', '"---"', '"..."', '""']);
  });
  test('a long entry becomes a block, with the same indentation inside; a short one, a text or a list stays on its line', () => {
    const long = 'a word '.repeat(20).trim();
    expect(entryLines('F3', { kind: 'fuse', rating: '8 A' }, '  ')).toBe('  F3: { kind: fuse, rating: 8 A }');
    expect(entryLines('F3', { kind: 'fuse', note: long, place: undefined }, '  ')).toBe(`  F3:\n    kind: fuse\n    note: ${long}`);
    expect(entryLines('note', long, '  ')).toBe(`  note: ${long}`);
    expect(entryLines('with', [long], '  ')).toBe(`  with: [${long}]`);
    const exact = 'x'.repeat(130 - '  F3: { a:  }'.length);
    expect(entryLines('F3', { a: exact }, '  ')).toHaveLength(130);
    expect(entryLines('F3', { a: `${exact}x` }, '  ')).toContain('\n');
  });
});

test('kinds that an unknown part may be: by its letter and its terminals, those with fewest besides first', () => {
  const kinds = [...partKinds.values()];
  const fits = (id: string, ...terminals: readonly string[]) => kindsFitting(id, terminals, kinds);
  expect(fits('F9', '1', '2')[0]).toBe('fuse');
  expect(fits('H9', '1', '2')).toContain('lamp');
  expect(fits('E9', '1', '2')).toContain('lamp');
  expect(fits('e9', '1', '2')).toContain('lamp');
  expect(fits('Q9', '1', '2')).toEqual([]);
  expect(fits('Q9', '30', '85', '86', '87')).toContain('relay');
  expect(fits('K9', '30', '85', '86', '87')[0]).toBe('relay');
  expect(fits('F9', 'nowhere')).toEqual([]);
  expect(kindsFitting('E9', ['1', '2'], kinds, 1)).toHaveLength(1);
  for (const list of [fits('F9', '1', '2'), fits('9', '1', '2')]) expect(list).not.toContain('wire');
});

test('the engine of a file: each role keeps its order, and what stops it is there only where it was said', () => {
  const read = (engine: string) => {
    const parts = ['M1', 'T1', 'Y1', 'Y2', 'G2'].map((id) => `  ${id}: { kind: heater, resistance: 5 Ω }\n`).join('');
    const wires = ['M1', 'T1', 'Y1', 'Y2', 'G2'].map((id) => `  - { from: G1.+, to: ${id}.1 }\n  - { from: ${id}.2, to: G1.- }\n`).join('');
    return readCircuit(
      `title: Engine\nparts:\n  G1: { kind: supply, voltage: 12 V }\n${parts}wires:\n${wires}engine: ${engine}\n`,
      'engine.yaml',
      partKinds,
    );
  };
  expect(sound(read('{ crank: M1, spark: T1, fuel: [Y2, Y1], drives: [G2] }')).engine).toEqual({
    crank: 'M1',
    spark: ['T1'],
    fuel: ['Y2', 'Y1'],
    drives: ['G2'],
  });
  expect(sound(read('{ crank: M1, spark: [], fuel: [], stops: [Y1] }')).engine).toEqual({
    crank: 'M1',
    spark: [],
    fuel: [],
    stops: ['Y1'],
    drives: [],
  });
  const [problem] = read('{ crank: M9, spark: [], fuel: [Y1] }').problems;
  expect(problem).toMatchObject({ code: 'unknown-part', what: 'crank of the engine is `M9`, and no part has that id' });
  expect(problem!.mend).toEqual(['parts with a near name: `M1`']);
  expect(read('{ crank: M1, spark: [], fuel: [Y1, Q] }').problems.map((p) => [p.what, p.mend])).toEqual([
    ['fuel of the engine is `Q`, and no part has that id', ['name the id of a part of this file']],
  ]);
});
