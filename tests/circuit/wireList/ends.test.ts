import { expect, test } from 'vitest';
import { endRead, idOf } from '../../../src/circuit/wireList/ends.ts';

const known = new Set(['S1', 'Lamp-left', 'a.b']);
const read = (written: string, terminal = '') => {
  const end = endRead(written, terminal, known);
  if (!end) return 'refused';
  return `${end.text}${end.name === undefined ? '' : ` "${end.name}"`}${end.changed ? ', changed' : ''}`;
};

// Reference designations begin with a sign and name a terminal behind a colon: IEC 81346-1 (from memory).
test.each([
  ['ground', 'ground'],
  ['block', 'block'],
  ['Masse', 'ground, changed'],
  [' GND ', 'ground, changed'],
  ['Motorblock', 'block, changed'],
  ['S1.15', 'S1.15'],
  ['S1.a b', 'S1.a b'],
  ['S9.15', 'S9.15'],
  ['S9.a b', 'S9-a-b "S9.a b", changed'],
  ['S1:15', 'S1.15, changed'],
  ['-S1:15', 'S1.15, changed'],
  ['=A+B-S1:15', 'A-B-S1.15 "A+B-S1", changed'],
  ['S1/15', 'S1.15, changed'],
  ['S1 15', 'S1.15, changed'],
  ['S1 x', 'S1.x, changed'],
  ['S9 x', 'S9-x "S9 x", changed'],
  ['G1 +', 'G1.+, changed'],
  ['Lamp left 1', 'Lamp-left.1 "Lamp left", changed'],
  ['Lamp left.1', 'Lamp-left.1 "Lamp left", changed'],
  ['Lamp left', 'Lamp-left "Lamp left", changed'],
  ['S1', 'S1'],
  ['-S1', 'S1, changed'],
  ['', 'refused'],
  ['?', 'refused'],
  [':15', '15 ":15", changed'],
  ['S1:', 'S1 "S1:", changed'],
])('`%s` alone is %s', (written, end) => {
  expect(read(written)).toBe(end);
});

test.each([
  ['S1', '15', 'S1.15'],
  ['Lamp left', '1', 'Lamp-left.1 "Lamp left", changed'],
  ['S1', ' 1.5 ', 'S1.1-5'],
  ['Masse', '1', 'Masse.1'],
  ['S1', ' ', 'refused'],
  ['key', '1', 'refused'],
])('`%s` with terminal `%s` is %s', (written, terminal, end) => {
  expect(read(written, terminal)).toBe(end);
});

test('an id is made of what a person wrote, in at most 60 signs; a word that means something else is none', () => {
  expect(idOf('--Lamp, left (front)!')).toBe('Lamp-left-front');
  expect(idOf('x'.repeat(70))).toHaveLength(60);
  for (const word of ['ground', 'block', 'engine', 'key', 'jumper', 'between', 'after', 'release', 'off', 'on', '', '!!'])
    expect(idOf(word)).toBeUndefined();
});
