import { expect, test } from 'vitest';
import type { FaultMode } from '../../src/circuit/part.ts';
import { historyFactor, historyRules } from '../../src/diagnose/prior.ts';

const mode = (words: string, text = words): FaultMode => ({
  ...{ subject: 'S1', words, text, weight: 1, source: 'made for this test', changes: () => [] },
});
const factor = (history: readonly string[], of: FaultMode, part = 'S1') => historyFactor(history, part, of).factor;

test('without a history no fault is likelier than before, and nothing is given as a reason', () => {
  for (const words of ['open', 'stuck closed', 'lost motion', 'bridged'])
    expect(historyFactor([], 'S1', mode(words))).toEqual({ factor: 1, because: [] });
  expect(historyFactor(['red paint', ''], 'S1', mode('open'))).toEqual({ factor: 1, because: [] });
});

/** What each rule of thumb is about, in the words of a customer; common practice, no source. */
const told = [
  ['added accessory', ['a TOW BAR was fitted', 'later radio', 'towbar'], 'on another terminal', 'lost motion'],
  ['water', ['it stood in a Flood', 'wet carpet'], 'tracking', 'lost motion'],
  ['key ring', ['heavy key ring', 'the key has to be jiggled', 'keyring'], 'lost motion', 'open'],
  ['heat', ['the switch gets HOT', 'smells of burning'], 'stuck closed', 'lost motion'],
  ['long parked', ['parked for years', 'stood in a barn'], 'open', 'lost motion'],
] as const;

test.each(told)('%s makes faults of its sort likelier and leaves the others, and says why', (id, lines, of, not) => {
  const rule = historyRules.find((r) => r.id === id)!;
  for (const line of lines) {
    const { factor: times, because } = historyFactor(['nothing else', line], 'S1', mode(of));
    expect(times, line).toBeGreaterThan(1);
    expect(because, line).toContain(rule.because);
    expect(historyFactor([line], 'S1', mode(not)).because, line).not.toContain(rule.because);
  }
});

test('every rule is told here, and what a fault says in its sentence counts like its words', () => {
  expect(historyRules.map((r) => r.id)).toEqual(told.map(([id]) => id));
  expect(historyRules.filter((r) => r.because.length < 20)).toEqual([]);
  expect(factor(['water'], mode('0.8 more', 'corroded joint'))).toBeGreaterThan(1);
});

test('rules that both speak multiply, and each is told once however often it was said', () => {
  const both = historyFactor(['wet', 'hot', 'wet again'], 'S1', mode('resistance'));
  expect(both.factor).toBe(factor(['wet'], mode('resistance')) * factor(['hot'], mode('resistance')));
  expect(both.because).toHaveLength(2);
});

test('a part that was replaced is less likely, never cleared; its neighbours and other words are left', () => {
  for (const line of ['new S1', 'S1 was Replaced in May', 'renewed: S1.', 'changed (S1)'])
    expect(historyFactor([line], 'S1', mode('open')), line).toEqual({
      factor: 0.3,
      because: ['S1 was replaced already: less likely, not cleared'],
    });
  for (const line of ['new S11', 'S1 looked at', 'renewable S1', 'a new part', 'XS1 is new'])
    expect(factor([line], mode('open')), line).toBe(1);
  expect(factor(['it was replaced', 'S1 looked at'], mode('open'))).toBe(1);
  expect(factor(['new S2', 'new S1'], mode('open'))).toBe(0.3);
});

// 2026-11-25: ids may begin and end with any letter; the ends of words were looked for as if there were only a to z.
test('a replaced part whose id has other letters than a to z is known as well', () => {
  expect(factor(['new Ö1'], mode('open'), 'Ö1')).toBe(0.3);
  expect(factor(['new fuse Fß'], mode('open'), 'Fß')).toBe(0.3);
  expect(factor(['new Ö1é'], mode('open'), 'Ö1')).toBe(1);
});
