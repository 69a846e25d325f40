import { expect, test } from 'vitest';
import { isMet, type ModuleWorld, pinsNamed, readCondition } from '../../src/parts/moduleCondition.ts';

type Given = { live?: string[]; grounded?: string[]; engine?: ModuleWorld['engine']; mode?: ModuleWorld['mode']; liveFor?: number };

function met(text: string, { live = [], grounded = [], engine = 'stopped', mode = 'awake', liveFor = 0 }: Given): boolean {
  const read = readCondition(text);
  if (!read.ok) throw new Error(read.problem.what);
  return isMet(read.condition, {
    engine,
    mode,
    isLive: (pin) => live.includes(pin),
    isGrounded: (pin) => grounded.includes(pin),
    liveFor_s: () => liveFor,
  });
}

const grammar = 'the grammar in the docstring of readCondition';
const rows: readonly { text: string; given: Given; is: boolean }[] = [
  { text: '15 and (50 or engine turning)', given: { live: ['15', '50'] }, is: true },
  { text: '15 and (50 or engine turning)', given: { live: ['15'] }, is: false },
  { text: '15 and (50 or engine turning)', given: { live: ['15'], engine: 'running' }, is: true },
  { text: '15 and (50 or engine turning)', given: { live: ['15'], engine: 'cranking' }, is: true },
  { text: '15 and (50 or engine turning)', given: { engine: 'running' }, is: false },
  { text: '15 and 50 or KI', given: { live: ['KI'] }, is: true },
  { text: '15 and (50 or KI)', given: { live: ['KI'] }, is: false },
  { text: 'not 15', given: {}, is: true },
  { text: 'not 15 and 50', given: { live: ['50'] }, is: true },
  { text: 'not (15 or 50)', given: { live: ['50'] }, is: false },
  { text: 'not not 15', given: { live: ['15'] }, is: true },
  { text: '15 live', given: { live: ['15'] }, is: true },
  { text: 'D1 grounded', given: { grounded: ['D1'] }, is: true },
  { text: 'D1 grounded or D2 grounded', given: { live: ['D1'] }, is: false },
  { text: 'engine stopped', given: {}, is: true },
  { text: 'engine cranking', given: { engine: 'running' }, is: false },
  { text: 'awake or after-run', given: { mode: 'after-run' }, is: true },
  { text: 'awake or after-run', given: { mode: 'asleep' }, is: false },
  { text: 'always', given: {}, is: true },
  { text: 'never', given: {}, is: false },
  { text: 'engine turning or within 2 s of 15', given: { live: ['15'] }, is: true },
  { text: 'engine turning or within 2 s of 15', given: { live: ['15'], liveFor: 2 }, is: false },
  { text: 'within 500 ms of 15', given: { live: ['15'], liveFor: 0.4 }, is: true },
  { text: 'within 2s of 15', given: {}, is: false },
];
test.each(rows.map((row) => ({ ...row, source: grammar })))('`$text` with $given is $is: $source', ({ text, given, is }) => {
  expect(met(text, given)).toBe(is);
});

const faulty = [
  { text: '', at: 0, what: 'the condition is empty' },
  { text: '15 and', at: 6, what: 'the condition ends where a pin or a state should follow' },
  { text: '15 and and 50', at: 7, what: '`and` stands where a pin or a state should be' },
  { text: '(15 or 50', at: 9, what: 'a bracket is not closed' },
  { text: '15)', at: 2, what: '`)` follows where `and` or `or` is needed' },
  { text: '15 50', at: 3, what: '`50` follows where `and` or `or` is needed' },
  { text: 'engine warm', at: 7, what: 'the engine is turning, cranking, running, stopped' },
  { text: 'engine', at: 0, what: 'the engine is turning, cranking, running, stopped' },
  { text: 'within of 15', at: 7, what: 'after `within` a time is needed' },
  { text: 'within 2 A of 15', at: 7, what: 'after `within` a time is needed' },
  { text: 'within 2 s of', at: 13, what: 'after `of` a pin is needed' },
  { text: 'within 2 s', at: 10, what: 'after the time `of` and a pin are needed' },
  { text: `${'('.repeat(50)}15${')'.repeat(50)}`, at: 40, what: 'the condition is nested more than 40 deep' },
].map((row) => ({ ...row, source: grammar }));
test.each(faulty)('`$text` is refused at $at: $what ($source)', ({ text, at, what }) => {
  const read = readCondition(text);
  expect(read.ok ? 'read' : read.problem).toMatchObject({ at, what });
  expect(read.ok ? '' : read.problem.mend).not.toBe('');
});

test('every pin of a condition is named, with what is asked of it', () => {
  const read = readCondition('15 and not (D1 grounded or within 2 s of KI)');
  expect(read.ok && pinsNamed(read.condition)).toEqual([
    { pin: '15', asks: 'live', seconds: 0 },
    { pin: 'D1', asks: 'grounded', seconds: 0 },
    { pin: 'KI', asks: 'within', seconds: 2 },
  ]);
});
