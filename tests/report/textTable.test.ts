import fc from 'fast-check';
import { expect, test } from 'vitest';
import { textTable, wrapped } from '../../src/report/textTable.ts';

test('columns as wide as their text, figures to the right', () => {
  const text = textTable({
    head: ['load', 'V'],
    rows: [
      ['H1', '11.8'],
      ['Panel lamp', '0.4'],
    ],
    right: [1],
  });
  expect(text).toBe(['load           V', '──────────  ────', 'H1          11.8', 'Panel lamp   0.4'].join('\n'));
});

test('a column that may break gives way first', () => {
  const text = textTable(
    { head: ['kind', 'meaning'], rows: [['lamp', 'a filament lamp whose current follows its volts']], wraps: [1] },
    30,
  );
  expect(text).toBe(
    ['kind  meaning', '────  ────────────────────────', 'lamp  a filament lamp whose', '      current follows its', '      volts'].join(
      '\n',
    ),
  );
});

test('a table that is still too wide is split, its first column repeated', () => {
  const head = ['load', 'LOCK', 'ACC', 'ON', 'START'];
  const text = textTable({ head, rows: [['H1', 'dead', 'dead', 'works', 'works']] }, 18);
  expect(text).toBe(
    ['load  LOCK  ACC', '────  ────  ────', 'H1    dead  dead', '', 'load  ON     START', '────  ─────  ─────', 'H1    works  works'].join(
      '\n',
    ),
  );
});

test('accents that stand over a letter take no column', () => {
  expect(textTable({ head: ['a', 'b'], rows: [['e\u0301', 'x']] })).toBe('a  b\n─  ─\ne\u0301  x');
});

const word = fc.stringMatching(/^[a-zA-ZΩ0-9.]{1,8}$/);
const cell = fc.array(word, { maxLength: 12 }).map((w) => w.join(' '));
test('no line is wider than asked for, and no word is lost', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 2, max: 6 }).chain((n) =>
        fc.record({
          head: fc.array(word, { minLength: n, maxLength: n }),
          rows: fc.array(fc.array(cell, { minLength: n, maxLength: n }), { maxLength: 6 }),
        }),
      ),
      (table) => {
        const text = textTable({ ...table, wraps: table.head.map((_, k) => k) }, 60);
        for (const line of text.split('\n')) expect([...line].length).toBeLessThanOrEqual(60);
        for (const w of table.rows.flat().flatMap((c) => c.split(' '))) expect(text).toContain(w);
      },
    ),
    { seed: 5, numRuns: 300 },
  );
});

test('wrapped keeps line breaks and cuts only words that exceed the line', () => {
  expect(wrapped('one two\nthree', 5)).toEqual(['one', 'two', 'three']);
  expect(wrapped('abcdefgh', 3)).toEqual(['abc', 'def', 'gh']);
  expect(wrapped('', 10)).toEqual(['']);
});
