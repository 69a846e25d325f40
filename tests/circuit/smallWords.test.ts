import { describe, expect, test } from 'vitest';
import { kindsFitting } from '../../src/circuit/guess/kindsFitting.ts';
import { settingText } from '../../src/circuit/handPhrase.ts';
import { looksLikeKeyPlace } from '../../src/circuit/keyPhrase.ts';
import { behindResistance, filament, junction } from '../../src/circuit/laws.ts';
import type { Problem } from '../../src/circuit/problem.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { readHand, readScene } from '../../src/circuit/scenePhrase.ts';
import { settingsOf } from '../../src/circuit/switchesOf.ts';
import { isColourCode } from '../../src/circuit/wireList/colours.ts';
import { readWireList } from '../../src/circuit/wireList/readWireList.ts';
import { tablesOf } from '../../src/circuit/wireList/tables.ts';
import { partKinds } from '../../src/parts/index.ts';
import { bench, inWords, keyless, sound } from './phraseCircuit.ts';

test('a setting that is a figure gets its `at`, a word does not, though a figure stands in it', () => {
  expect([settingText('S2', '2'), settingText('S5', 'on'), settingText('S3', 'a2'), settingText('S3', '2nd')]).toEqual([
    'S2 at 2',
    'S5 on',
    'S3 a2',
    'S3 at 2nd',
  ]);
});

test.each([
  ['ON', true],
  ['on', true],
  ['START', true],
  ['key out', true],
  ['KEY   out', true],
  ['key out now', false],
  ['keyout', false],
  ['between ACC and ON', true],
  ['betweenACC', false],
  ['-5°', true],
  ['+3', true],
  ['.5', true],
  ['77°', true],
  ['ON after START', true],
  ['afterwards', false],
  ['S4 on', false],
  ['x5', false],
])('`%s` can only mean a place of the key: %s', (text, is) => {
  expect(looksLikeKeyPlace(text, bench)).toBe(is);
});
test('without a key switch its positions are no words, but what a key alone does still is', () => {
  expect(['ON', 'START', 'key out', '30°'].map((t) => looksLikeKeyPlace(t, keyless))).toEqual([false, false, true, true]);
});

test.each([
  ['ON S4 on', ['ON, S4 on']],
  ['ON   S4 on', ['ON, S4 on']],
  ['S4   on ON', ['S4   on, ON']],
])('`%s`: the comma that was left out is told', (text, mend) => {
  const read = readScene(text, bench, '--scene');
  expect(read.ok ? [] : read.problems[0]!.mend).toEqual(mend);
});

test('a setting stands by itself at the end of a phrase: run together with its switch it is none', () => {
  expect(readHand('Lamp button on', bench, '--scene').ok).toBe(true);
  expect(readHand('Lamp buttonon', bench, '--scene').ok).toBe(false);
  expect(readHand('S4on', bench, '--scene').ok).toBe(false);
});

test('of the parts that bear one name four are told', () => {
  const many = sound(
    readCircuit(
      `title: T\nparts:\n  G1: { kind: supply, voltage: 12 V }\n${[1, 2, 3, 4, 5, 6].map((k) => `  S${k}: { kind: switch, name: Side lamp }\n`).join('')}wires:\n  - { from: G1.-, to: ground }\n${[1, 2, 3, 4, 5, 6].map((k) => `  - { from: G1.+, to: S${k}.1 }\n  - { from: S${k}.2, to: ground }\n`).join('')}`,
      'x',
      partKinds,
    ),
  );
  const read = readHand('unplug Side lamp', many, '--scene');
  const told = read.ok ? undefined : read.problems[0];
  expect(told && inWords(told)).toMatch(/names 6 parts \| unplugged S1; unplugged S2; unplugged S3; unplugged S4$/);
});

test('a load that is switched on takes the `on` of its switch, though a setting before it lets through too', () => {
  const made = (states: string) =>
    sound(
      readCircuit(
        `title: T
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: multi-switch, states: ${states} }
  H1: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: S1.30 }
  - { from: S1.a, to: H1.1 }
  - { from: H1.2, to: ground }
  - { from: G1.-, to: ground }
`,
        'x',
        partKinds,
      ),
    );
  const meant = (states: string, word: string) => {
    const circuit = made(states);
    return settingsOf(circuit, circuit.parts.get('H1')!, word);
  };
  expect(meant('{ off: [], low: [30-a], on: [30-a] }', 'on')).toEqual({ all: [{ part: 'S1', setting: 'on' }] });
  expect(meant('{ off: [], low: [30-a], high: [30-a] }', 'on')).toEqual({ all: [{ part: 'S1', setting: 'low' }] });
  expect(meant('{ off: [], low: [30-a], on: [30-a] }', 'off')).toEqual({ all: [{ part: 'S1', setting: 'off' }] });
});

test.each([
  ['RD', true],
  ['RD/BK', true],
  ['GD', true],
  ['SR', true],
  ['RD/GD', true],
  ['XX', false],
  ['rd', false],
  ['RDBK', false],
  ['', false],
  ['RD/', false],
  ['toString', false],
])('`%s` is written in IEC letters (IEC 60757, from memory): %s', (written, is) => {
  expect(isColourCode(written)).toBe(is);
});

test('kinds that an unknown part may be: by its letter and its terminals, never a wire, no more than asked for', () => {
  const lamps = kindsFitting('H9', ['1', '2'], partKinds);
  expect(lamps).toContain('lamp');
  expect(kindsFitting('W9', ['1', '2'], partKinds)).not.toContain('wire');
  expect(kindsFitting('Q9', ['1', '2'], partKinds)).toEqual([]);
  expect(kindsFitting('K9', ['30', '87', '86', '85'], partKinds)[0]).toBe('relay');
  expect(kindsFitting('H9', ['1', '2'], partKinds, 1)).toHaveLength(1);
  expect(kindsFitting('9', ['30', '87', '86', '85'], partKinds)).toContain('relay');
});

describe('a law behind a resistance', () => {
  const battery = (volt: number) => (u: number) => ({ ampere: (u - volt) / 0.1, siemens: 10 });
  const laws = { lamp: filament(21, 12), diode: junction(0.6, 0.05), pushing: battery(12), pulling: battery(-12) };
  test.each(Object.entries(laws))('%s: by Ohm and Kirchhoff the two share the volts, whichever way round they stand', (_name, law) => {
    for (const ohm of [1e-3, 0.5, 20, 1e4])
      for (const volts of [-40, -12, -3, -1e-3, 0, 1e-3, 3, 12, 40]) {
        const { ampere, siemens } = behindResistance(law, ohm)(volts);
        const own = volts - ohm * ampere;
        expect(Math.abs(law(own).ampere - ampere)).toBeLessThan(
          1e-6 * Math.max(1, Math.abs(ampere)) + law(own).siemens * 1e-12 * Math.abs(volts),
        );
        // Conductances in series.
        expect(siemens).toBeCloseTo(1 / (ohm + 1 / law(own).siemens), 6);
      }
  });
});

describe('wire lists', () => {
  const read = (text: string, byHand = {}) => readWireList(text, 'wires.csv', 'Van', partKinds, byHand);
  test('a column that is called by a figure is taken by its name before the one of that number', () => {
    const text = 'from,to,3,note\nS1.15,F3.1,RD,BU\n';
    expect(read(text, { colour: '3' }).yaml).toContain('colour: RD');
    expect(read('from,to,4,note\nS1.15,F3.1,RD,BU\n', { colour: '4' }).yaml).toContain('colour: RD');
    expect(read('from,to,x,y\nS1.15,F3.1,RD,BU\n', { colour: '4' }).yaml).toContain('colour: BU');
  });
  test.each([
    ['from,to,colour\n', 'English'],
    ['von;nach;farbe\n', 'German'],
    ['départ;arrivée;couleur\n', 'French'],
    ['nonsense\n', 'English'],
  ])('%j is headed in %s', (text, language) => {
    expect(tablesOf(text).language).toBe(language);
  });
});

describe('refusals by size say what, why and what to do, to the letter', () => {
  const told = (text: string): readonly Omit<Problem, 'file'>[] =>
    readCircuit(text, 'x.yaml', partKinds).problems.map(({ file: _, ...problem }) => problem);
  test('a file over 1 MiB', () => {
    expect(told(`title: T # ${'x'.repeat(2 ** 20)}`)).toEqual([
      {
        line: 1,
        column: 1,
        length: 1,
        code: 'file-too-large',
        severity: 'error',
        what: 'the file is larger than 1 MiB (1 048 576 bytes)',
        why: 'files over 1 MiB are not read',
        mend: ['split the circuit, or leave out what does not belong to it'],
      },
    ]);
  });
  test('over 200 000 terminals', () => {
    const parts = Array.from({ length: 501 }, (_, k) => `  X${k}: { kind: connector, pins: 200 }`).join('\n');
    expect(told(`title: T\nparts:\n${parts}\n`)).toEqual([
      {
        line: 503,
        column: 3,
        length: 4,
        code: 'too-many-terminals',
        severity: 'error',
        what: 'with X500 the circuit has more than 200 000 terminals',
        why: 'circuits over 200 000 terminals are not computed',
        mend: ['split the circuit, or give its connectors fewer pins'],
      },
    ]);
  });
  test('over a thousand problems', () => {
    const keys = Array.from({ length: 1003 }, (_, k) => `k${k}: 1`).join(', ');
    expect(told(`title: T\nparts:\n  R1: { kind: resistor, resistance: 1 Ω, ${keys} }\n`).at(-1)).toMatchObject({
      code: 'more-problems',
      what: '3 more problems follow from here',
      why: 'the list ends here so that it can be read',
    });
  });
});

test('a comma in a number splits a map: with a unit behind it and without', () => {
  const area = (written: string) =>
    readCircuit(
      `title: T\nparts:\n  G1: { kind: supply, voltage: 12 V }\nwires:\n  - { from: G1.+, to: G1.-, ${written}, length: 1 m }\n`,
      'x',
      partKinds,
    ).problems.filter((p) => p.code === 'decimal-comma');
  expect(area('area: 1,5 mm²').map((p) => p.mend)).toEqual([['write `1.5 mm²`']]);
  expect(area('area: 1,5').map((p) => p.mend)).toEqual([['write `1.5`']]);
  expect(area('area: 1.5 mm²')).toEqual([]);
});
