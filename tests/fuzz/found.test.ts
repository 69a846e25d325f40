import { expect, test } from 'vitest';
import { diceOf } from './dice.ts';
import { targets } from './targets.ts';

/** Inputs that once were answered wrongly. */
const found = [
  { on: '2026-11-25', target: 'scene', text: 'ACC, swapped \ufffd', was: 'a part that is like no other was refused without a mend' },
  { on: '2026-11-25', target: 'finding', text: 'ACC: \ufffdM\ufffd works', was: 'the same, in a finding' },
] as const;

test.each(found)('$target: $was', ({ target, text }) => {
  expect(targets.find((t) => t.name === target)!.tried(text, diceOf(1, 1))).toBeUndefined();
});
