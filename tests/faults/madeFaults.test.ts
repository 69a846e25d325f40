import { expect, test } from 'vitest';
import type { Change, FaultMode } from '../../src/circuit/part.ts';
import { clashes } from '../../src/faults/clashes.ts';
import { type Fault, worldsOf } from '../../src/faults/fault.ts';
import { suspectName } from '../../src/faults/faultModes.ts';
import { nearFaults } from '../../src/faults/nearFaults.ts';

/** Faults of no kind of part, so that each rule stands alone. */
const mode = (subject: string, words: string, changes: readonly Change[] = [], more: Partial<FaultMode> = {}): FaultMode => ({
  ...{ subject, words, text: words, weight: 1, source: 'made for this test' },
  ...more,
  changes: () => changes,
});
/** Each excludes nothing of itself: only what it changes can clash. */
const fault = (part: string, subject: string, words: string, ...changes: readonly Change[]): Fault => ({
  phrase: `${subject} ${words}`,
  part,
  mode: mode(subject, words, changes, { excludes: `${subject} ${words}` }),
  detail: 0,
});
const set = (patch: Readonly<Record<string, unknown>>): Change => ({ do: 'params', patch });
const fix: Change = { do: 'fix', element: '30-15', ohm: 0.01 };
const series: Change = { do: 'series', element: '30-15', ohm: 1 };
const codes = (...faults: readonly Fault[]) => clashes(faults).map((p) => p.code);

test('two faults that set one parameter of a part to different things cannot both be: one would be lost without a word', () => {
  const small = fault('F1', 'F1', 'too small', set({ rating: 5 }));
  const large = fault('F1', 'F1', 'too large', set({ rating: 30 }));
  expect(codes(small, large)).toEqual(['faults-exclude']);
  expect(codes(large, small)).toEqual(['faults-exclude']);
  expect(codes(small, fault('F1', 'F1', 'both', series, set({ form: 'x' }), set({ rating: 30 })))).toEqual(['faults-exclude']);
  expect(clashes([small, large])[0]?.file).toBe('--fault');
});

test('faults of two parts never clash, though they bear one name; a clash says what it costs', () => {
  const of = (part: string): Fault => ({ ...fault(part, 'joint', 'open', series), mode: mode('joint', 'open', [series]) });
  const worn = (part: string): Fault => ({ ...fault(part, 'joint', 'worn', series), mode: mode('joint', 'worn', [series]) });
  expect(codes(of('W1'), of('W2'), worn('W3'))).toEqual([]);
  const told = clashes([of('W1'), of('W1'), worn('W1')]);
  expect(told.map((p) => p.code)).toEqual(['fault-twice', 'faults-exclude']);
  for (const p of told) expect(p.why.length).toBeGreaterThan(15);
});

test.each([
  ['the same thing', fault('F1', 'F1', 'b', set({ rating: 5 }))],
  ['another parameter', fault('F1', 'F1', 'b', set({ form: 'blade' }))],
  ['the parameter of another part', fault('F2', 'F2', 'b', set({ rating: 30 }))],
  ['no parameter at all', fault('F1', 'F1', 'b', series)],
])('a fault that sets %s can be there as well', (_what, other) => {
  expect(codes(fault('F1', 'F1', 'a', set({ rating: 5 })), other)).toEqual([]);
});

test('what stays as it is in every condition leaves no room for what shows in some of them, in whichever order', () => {
  const stuck = fault('S1', 'S1.30-15', 'stuck', series, fix);
  const dead = fault('S1', 'S1.30-15', 'dead at ON', series, set({ dead: 'ON' }));
  expect(codes(stuck, dead)).toEqual(['faults-exclude']);
  expect(codes(dead, stuck)).toEqual(['faults-exclude']);
});

test.each([
  ['another piece of the part', fault('S1', 'S1.30-15', 'stuck', fix), fault('S1', 'S1.30-50', 'dead', set({ dead: 'ON' }))],
  ['another part', fault('S1', 'S1.30-15', 'stuck', fix), fault('S2', 'S1.30-15', 'dead', set({ dead: 'ON' }))],
  ['the part as a whole', fault('S1', 'S1', 'stuck', fix), fault('S1', 'S1', 'loose', set({ play: 5 }))],
  ['nothing that shows in some', fault('S1', 'S1.30-15', 'stuck', fix), fault('S1', 'S1.30-15', 'worn', series)],
  ['nothing that stays', fault('S1', 'S1.30-15', 'worn', series), fault('S1', 'S1.30-15', 'dead', set({ dead: 'ON' }))],
  ['two that both stay', fault('S1', 'S1.30-15', 'stuck', fix), fault('S1', 'S1.30-15', 'welded', fix)],
])('it leaves room for %s', (_what, a, b) => {
  expect(codes(a, b)).toEqual([]);
  expect(codes(b, a)).toEqual([]);
});

test('a fault that always or never comes is one world, not two with one of them empty', () => {
  const touch = (detail: number): Fault => ({
    phrase: '',
    part: 'W1',
    mode: mode('W1', 'comes and goes', [series], { sometimes: true }),
    detail,
  });
  expect(worldsOf([touch(1)])).toEqual([{ share: 1, changes: [{ part: 'W1', change: series }] }]);
  expect(worldsOf([touch(0)])).toEqual([{ share: 1, changes: [] }]);
});

test('a suspect is named without its figure; one that is a figure alone by what it measures', () => {
  const figure = (dimension: 'resistance' | 'angle') => ({
    detail: { dimension, default: 1, grades: [], min: 0, max: 9, optional: false },
  });
  expect(suspectName(mode('W9', '', [], figure('resistance')))).toBe('W9 resistance');
  expect(suspectName(mode('S1', 'lost motion', [], figure('angle')))).toBe('S1 lost motion');
  expect(suspectName(mode('F3', 'blown'))).toBe('F3 blown');
  expect(suspectName(mode('F3', '')).trim()).toBe('F3');
});

const own = (...words: readonly string[]) => words.map((w) => ({ part: 'S1', mode: mode('S1', w) }));
const near = (said: string, ...words: readonly string[]) => nearFaults(said, own(...words)).map((phrase) => phrase.slice('S1 '.length));

test('near faults: all words in another order before one word in the right place', () => {
  expect(near('spring weak', 'spring weal', 'weak spring')).toEqual(['weak spring', 'spring weal']);
});
test('near faults: of two that share a word the one that says less besides', () => {
  expect(near('open circuit', 'open from time to time in the rain', 'open')).toEqual(['open', 'open from time to time in the rain']);
});
test('near faults: of two that share as much the one nearer in letters, and at most four', () => {
  expect(near('stuck open', 'stuck closed', 'stuck opened')).toEqual(['stuck opened', 'stuck closed']);
  expect(near('a', 'ab', 'ac', 'ad', 'ae', 'af')).toHaveLength(4);
});
test('near faults: capitals make no difference, figures and units are no words', () => {
  expect(near('OPEN AT on', 'shut at ON', 'open at ON')[0]).toBe('open at ON');
  expect(near('0.8 Ω worn', 'worn', '0.8 Ω')[0]).toBe('worn');
  expect(near('30mm wear', '30mm gap', 'wear out')).toEqual(['wear out', '30mm gap']);
  expect(near('5 V wear', '5 V gap', 'wear out')).toEqual(['wear out', '5 V gap']);
});
