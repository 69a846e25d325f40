import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readCircuit } from '../../../src/circuit/readCircuit.ts';
import { readWireList } from '../../../src/circuit/wireList/readWireList.ts';
import type { ListStyle } from '../../../src/circuit/wireList/writeWireList.ts';
import { writeWireList } from '../../../src/circuit/wireList/writeWireList.ts';
import { partKinds } from '../../../src/parts/index.ts';

const files = readdirSync('circuits').filter((f) => f.endsWith('.yaml'));
const read = (text: string) => {
  const got = readCircuit(text, 'x', partKinds);
  if (!got.ok) throw new Error(got.problems.map((p) => `${p.line} ${p.what}`).join('\n'));
  return got.value;
};
const styles: readonly ListStyle[] = [
  { separator: ',', decimal: '.' },
  { separator: ';', decimal: ',' },
  { separator: '\t', decimal: ',' },
  { separator: '|', decimal: '.' },
];

test.each(files)(
  '%s out to a table and back is the same circuit, in every style',
  (file) => {
    const text = readFileSync(`circuits/${file}`, 'utf8');
    const before = read(text);
    for (const style of styles) {
      const back = readWireList(writeWireList(text, style) ?? '', 'wires.csv', 'none', partKinds);
      expect(back.problems).toEqual([]);
      expect(back.leftOut).toBe(0);
      expect(read(back.yaml ?? '')).toEqual(before);
    }
  },
  60_000,
);

test('a table is the same through a second time', () => {
  const text = readFileSync(`circuits/${files[0]}`, 'utf8');
  const once = writeWireList(text, styles[1]!) ?? '';
  const yaml = readWireList(once, 'x', 'none', partKinds).yaml ?? '';
  expect(writeWireList(yaml, styles[1]!)).toBe(once);
});

test('any note, colour and name comes back as it was, in every style', () => {
  // What the circuit reader itself takes: no hidden signs, no blanks at the ends.
  const word = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 30 })
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what the reader refuses
    .map((t) => t.replace(/[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/g, '').trim())
    .filter((t) => t !== '');
  const tricky = fc.constantFrom(
    '=1+1',
    "'=1",
    '-',
    '+a',
    '@x',
    '"',
    'a"b',
    'a,b;c\td|e',
    "it's",
    '# no',
    'a: b',
    '{',
    ']',
    'yes',
    '~',
    '0,75',
    '* x',
    '& y',
    '- z',
  );
  fc.assert(
    fc.property(fc.oneof(word, tricky), fc.oneof(word, tricky), fc.constantFrom(...styles), (note, name, style) => {
      const quoted = JSON.stringify;
      const text = `title: t\nparts:\n  G1: { kind: supply, voltage: 12 V, resistance: 1 Ω, name: ${quoted(name)} }\n  R1: { kind: resistor, resistance: 1 Ω }\nwires:\n  - { from: G1.+, to: R1.1, note: ${quoted(note)} }\n  - { from: R1.2, to: G1.- }\n`;
      const before = read(text);
      const back = readWireList(writeWireList(text, style) ?? '', 'x', 'none', partKinds);
      expect(read(back.yaml ?? '')).toEqual(before);
    }),
    { seed: 31, numRuns: 400 },
  );
});

test('a circuit without wires has their head alone; blanks around a text are no part of it', () => {
  const style = { separator: ',', decimal: '.' } as const;
  const rows = (text: string) => writeWireList(text, style)!.split('\r\n');
  expect(rows('title: " Bare "\nparts:\n  R1: { kind: " resistor", resistance: 1 Ω }\n')).toEqual([
    'wire,from,to,via,colour,area (mm²),length (m),note',
    '',
    'part,kind,name,place,parameters',
    'R1,resistor,,,resistance: 1 Ω',
    '',
    'circuit,value',
    expect.stringMatching(/^title,/),
    '',
  ]);
  expect(rows('title: T\nparts: {}\nwires: none\n').slice(0, 3)).toEqual([
    'wire,from,to,via,colour,area (mm²),length (m),note',
    '',
    'part,kind,name,place,parameters',
  ]);
  expect(rows('parts: {}\nwires:\n  - { from: " A.1 ", to: B.1, colour: " RD " }\n')[1]).toBe(',A.1,B.1,,RD,,,');
});
