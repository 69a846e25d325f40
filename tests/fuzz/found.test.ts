import { expect, test } from 'vitest';
import { diceOf } from './dice.ts';
import { targets } from './targets.ts';

/** Inputs that once were answered wrongly. */
const found = [
  { on: '2026-11-25', target: 'scene', text: 'ACC, swapped \ufffd', was: 'a part that is like no other was refused without a mend' },
  { on: '2026-11-25', target: 'finding', text: 'ACC: \ufffdM\ufffd works', was: 'the same, in a finding' },
  { on: '2026-11-25', target: 'fault', text: 'S1.1 on .W6a50', was: 'a terminal where no wire ends was refused without a mend' },
  {
    on: '2026-11-25',
    target: 'circuit',
    text: `title: t\nparts:\n  G1: { kind: supply, voltage: 12 V }\nwires:\n  - { from: ${'A'.repeat(3000)}.1, to: G1.+ }\n`,
    was: 'a problem quoted an endless name three times over',
  },
  {
    on: '2026-11-25',
    target: 'wire list',
    text: 'No,From,To,Colour,Area,Length\n1,G1.+,S1.30,RD,0.75 __proto__,1 constructor\n',
    was: 'a name that every object has was taken for a unit, and shown as [object Object] and as NaN',
  },
  { on: '2026-11-25', target: 'scene', text: `${'A'.repeat(6000)}ON`, was: 'an endless word in a scene was quoted whole' },
  {
    on: '2026-11-26',
    target: 'scene',
    text: 'keyou\ufffdtON,\u200eswapped  S\t2',
    was: 'a mark that turns the writing round came through',
  },
  {
    on: '2026-11-26',
    target: 'story',
    text: 'ON 2 s\nbridge S1.15 S1.15',
    was: 'a bridge from a terminal to itself was refused without a mend',
  },
  {
    on: '2026-11-26',
    target: 'finding',
    text: 'off the vehicle: S1.30 to S1.30 at ON open',
    was: 'two leads on one terminal of a part on the bench were refused without a mend',
  },
  { on: '2026-11-26', target: 'finding', text: 'ON: 320 mA at ground', was: 'a clamp round the whole ground was refused without a mend' },
] as const;

test.each(found)('$target: $was', ({ target, text }) => {
  expect(targets.find((t) => t.name === target)!.tried(text, diceOf(1, 1))).toBeUndefined();
});
