import { expect, test } from 'vitest';
import { apart, countOf } from './count.mjs';

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
