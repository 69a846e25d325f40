import { expect, test } from 'vitest';
import { isIdForm } from '../../src/circuit/ids.ts';
import { quotedShort, saidShort } from '../../src/circuit/quotedShort.ts';

const long = (n: number, sign = 'x') => sign.repeat(n);

test('words up to 120 signs stay as they are, however they are put', () => {
  for (const words of ['', 'a lamp', `\`${long(118)}\``, long(120)]) expect(quotedShort(words)).toBe(words);
});

test('of an endless quotation or word the beginning is left, and what is said around it stays', () => {
  expect(quotedShort(`part \`${long(500)}\` is not there`)).toBe(`part \`${long(60)}…\` is not there`);
  expect(quotedShort(`\`${long(70)} ${long(70)}\` twice \`${long(130)}\``)).toBe(`\`${long(60)}…\` twice \`${long(60)}…\``);
  expect(quotedShort(`a ${long(121)} b ${long(119)}`)).toBe(`a ${long(60)}… b ${long(119)}`);
  // Many short words are a sentence, not a name.
  expect(quotedShort('word '.repeat(100))).toBe('word '.repeat(100));
});

test('a sign of two units is never cut in half', () => {
  expect(quotedShort(`\`${long(200, '😀')}\``)).toBe(`\`${long(60, '😀')}…\``);
  expect(quotedShort(long(200, '😀'))).toBe(`${long(60, '😀')}…`);
});

test('a problem keeps its place and says fact, cost and mends shortly', () => {
  const said = saidShort({ line: 7, what: long(200), why: long(201), mend: [long(202), 'short'] });
  expect(said).toEqual({ line: 7, what: `${long(60)}…`, why: `${long(60)}…`, mend: [`${long(60)}…`, 'short'] });
});

test.each(['F3', '1', 'Ö1', 'K1_a', "W7'", 'X2/3', 'S1-b', long(60)])('%s can be an id', (id) => {
  expect(isIdForm(id)).toBe(true);
});
test.each(['', '-a', '_a', 'a b', 'a.b', 'a:', ' a', 'a ', 'a\n', long(61)])('%j cannot', (id) => {
  expect(isIdForm(id)).toBe(false);
});
