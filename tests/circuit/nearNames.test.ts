import { expect, test } from 'vitest';
import { editDistance, nearNames, nearNamesWithin } from '../../src/circuit/nearNames.ts';

test.each([
  ['lamp', 'lamp', 0],
  ['lmap', 'lamp', 1], // neighbours swapped
  ['lam', 'lamp', 1],
  ['lampe', 'lamp', 1],
  ['kitten', 'sitting', 3], // the textbook pair
  ['', 'abc', 3],
])('%s to %s takes %d steps', (a, b, steps) => {
  expect(editDistance(a, b)).toBe(steps);
  expect(editDistance(b, a)).toBe(steps);
});

const kinds = ['lamp', 'led-lamp', 'fuse', 'fusible-link', 'relay', 'timed-relay', 'switch', 'multi-switch', 'battery'];
test.each([
  ['lmap', ['lamp']],
  ['Lamp', ['lamp']],
  ['fuze', ['fuse']],
  ['relais', ['relay']],
  ['batery', ['battery']],
  ['swich', ['switch']],
  ['flux-capacitor', []],
  ['', []],
])('near %s: %j', (word, near) => {
  expect(nearNames(word, kinds)).toEqual(near);
});

test('of short names only those that begin alike are near', () => {
  expect(nearNames('M1', ['G1', 'F1', 'H1'])).toEqual([]);
  expect(nearNames('S7', ['S2', 'F7'])).toEqual(['S2']);
  expect(nearNames('s2', ['S2'])).toEqual(['S2']);
});

test('names that begin with the word are near, most four, nearest first', () => {
  expect(nearNames('87', ['87a', '87b', '87c', '87d', '87e'])).toEqual(['87a', '87b', '87c', '87d']);
  expect(nearNames('weak', ['weak-below', 'wea'])).toEqual(['wea', 'weak-below']);
});

test('within its comparisons it answers, beyond them it says nothing', () => {
  const near = nearNamesWithin(3);
  expect(near('lmap', ['lamp', 'fuse'])).toEqual(['lamp']);
  expect(near('lmap', ['lamp', 'fuse'])).toEqual([]);
});
