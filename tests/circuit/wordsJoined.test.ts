import { expect, test } from 'vitest';
import { wordsJoined } from '../../src/circuit/wordsJoined.ts';

test.each([
  [[], ''],
  [['a'], 'a'],
  [['a', 'b'], 'a and b'],
  [['a', 'b', 'c'], 'a, b and c'],
])('%j are joined to `%s`', (words, joined) => {
  expect(wordsJoined(words)).toBe(joined);
});
