import { expect, test } from 'vitest';
import { openingOf } from '../../src/circuit/opening.ts';

test('a heading goes on in indented lines, and ends with the next line that is not', () => {
  const text =
    '# A van.\n#\n# Teaches: one thing;\n#   and another.\n# Key-off current: 9 mA.\n# Invented.\n#   not of it\ntitle: x\n# Teaches: late\n';
  expect(openingOf(text)).toEqual({ teaches: 'one thing; and another.', keyOff: '9 mA.' });
});

test('a file that opens with nothing of the kind says nothing', () => {
  expect(openingOf('title: x\n')).toEqual({ teaches: '', keyOff: '' });
  expect(openingOf('')).toEqual({ teaches: '', keyOff: '' });
  expect(openingOf('\uFEFF# Teaches: a\r\n#   b\r\ntitle: x')).toEqual({ teaches: 'a b', keyOff: '' });
});
