import { expect, test } from 'vitest';
import { apart, countOf, isDrawn, likely, percent, seen } from './count.mjs';

test('what a test noticed is killed; what only ran out of time or memory is counted apart', () => {
  const by = { test: 'tests/solve/loads.test.ts' };
  const tried = [
    { status: 'killed', by },
    { status: 'killed', by },
    { status: 'broken off', how: 'no end within 20 s' },
    // As it was kept before.
    { status: 'killed', how: 'Worker terminated due to reaching memory limit: JS heap out of memory' },
    { status: 'survived' },
    { status: 'unreached' },
    {},
  ];
  expect(countOf(tried)).toEqual({ killed: 2, survived: 2, broken: 2 });
  expect([apart(2), apart(0)]).toEqual([' (besides 2 broken off: no end, or no memory)', '']);
});

// R. G. Newcombe, Statistics in Medicine 17 (1998) 857, table I, score method without correction (from memory): 81 of 263 is
// 0.2553 to 0.3662, 15 of 148 is 0.0624 to 0.1605, 1 of 29 is 0.0061 to 0.1718, 0 of 20 is 0 to 0.1611.
test.each([
  [81, 263, '26 to 37'],
  [15, 148, '6 to 16'],
  [1, 29, '1 to 17'],
  [0, 20, '0 to 16'],
])('%i noticed of %i tried: the score of all is likely %s per cent', (killed, tried, range) => {
  expect(likely({ killed, survived: tried - killed, all: 1000 })).toBe(`, of 1000: ${range} % likely`);
});

test('where all were tried, or none, there is nothing to guess', () => {
  expect(likely({ killed: 8, survived: 2, all: 10 })).toBe('');
  expect(likely({ killed: 0, survived: 0, all: 10 })).toBe('');
});

test('a share draws about its part, the same ones every time, and a larger share holds those of a smaller', () => {
  const changes = Array.from({ length: 2000 }, (_, k) => ({ at: `${k}:1`, kind: 'made', after: '' }));
  const drawn = (share: number) => changes.filter((c) => isDrawn('src/solve/loads.ts', c, share));
  expect(drawn(1)).toHaveLength(2000);
  // Four standard deviations of a binomial draw either way.
  expect(Math.abs(drawn(0.1).length - 200)).toBeLessThan(4 * Math.sqrt(2000 * 0.1 * 0.9));
  expect(drawn(0.1)).toEqual(drawn(0.1));
  const larger = new Set(drawn(0.3));
  expect(drawn(0.1).every((c) => larger.has(c))).toBe(true);
});

test('another draw is of the same size and shares with the first no more than chance does', () => {
  const changes = Array.from({ length: 2000 }, (_, k) => ({ at: `${k}:1`, kind: 'made', after: '' }));
  const drawn = (draw: string) => changes.filter((c) => isDrawn('src/solve/loads.ts', c, 0.1, draw));
  const first = new Set(drawn(''));
  expect(Math.abs(drawn('B').length - 200)).toBeLessThan(4 * Math.sqrt(2000 * 0.1 * 0.9));
  const both = drawn('B').filter((c) => first.has(c)).length;
  expect(Math.abs(both - 20)).toBeLessThan(4 * Math.sqrt(2000 * 0.01 * 0.99));
});

test('what alters nothing to be seen is left out of a second score, which stands beside the first', () => {
  const sum = { killed: 80, survived: 20, all: 1000 };
  expect([percent(80, 20), percent(0, 0)]).toEqual([' 80.0%', '   -  ']);
  expect(seen({ ...sum, explained: 0 })).toBe('');
  // 80 of 90 by Wilson's interval is 0.807 to 0.939: half widths from Newcombe's formula, worked out by hand.
  expect(seen({ ...sum, explained: 10 })).toBe('; but for 10 that alter nothing to be seen 88.9%, of 1000: 81 to 94 % likely');
});
