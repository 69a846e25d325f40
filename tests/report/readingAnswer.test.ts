import { expect, test } from 'vitest';
import { diagnose } from '../../src/diagnose/diagnose.ts';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { diagnosisView } from '../../src/report/diagnosisView.ts';
import { readingAsks } from '../../src/report/readingAnswer.ts';
import { libraryCircuit } from '../diagnose/library.ts';

const row = (...findings: string[]) => ({
  outcomes: findings.map((finding) => ({ seen: '', probability: 0.5, percent: '', leaves: [], worth: [], finding })),
});

test('volts take a figure in place of the expected one, whatever its prefix', () => {
  const asks = readingAsks(row('ON: 12.1 V at S1.15', 'ON: 30 mV at S1.15'));
  expect(asks.form === 'figure' && [asks.unit, asks.phrase(0.4)]).toEqual(['V', 'ON: 0.4 V at S1.15']);
});

test('the figure of a scene is not taken for the reading', () => {
  const asks = readingAsks(row('75°, S2 at 2: 11.8 V from S1.30 to S1.15'));
  expect(asks.form === 'figure' && asks.phrase(0)).toBe('75°, S2 at 2: 0 V from S1.30 to S1.15');
});

test('ohms may be open', () => {
  const asks = readingAsks(row('off the vehicle: S1.30 to S1.15 at ON open', 'off the vehicle: S1.30 to S1.15 at ON 5 mΩ'));
  expect(asks.form === 'figure' && [asks.unit, asks.phrase(Number.POSITIVE_INFINITY), asks.phrase(2)]).toEqual([
    'Ω',
    'off the vehicle: S1.30 to S1.15 at ON open',
    'off the vehicle: S1.30 to S1.15 at ON 2 Ω',
  ]);
});

test('looks, the engine, exchanges take their own words', () => {
  const words = (...findings: string[]) => {
    const asks = readingAsks(row(...findings));
    return asks.form === 'words' ? asks.words.map((w) => w.finding) : [];
  };
  expect(words('ON: T1 dead', 'ON: T1 works')).toEqual(['ON: T1 works', 'ON: T1 weak', 'ON: T1 dead', 'ON: T1 comes and goes']);
  expect(words('START: engine cranks slowly')).toContain('START: engine still');
  expect(words('swapped S1: cured')).toEqual(['swapped S1: cured', 'swapped S1: no change', 'swapped S1: changes']);
});

test('for every reading that the search proposes the answer reads back', () => {
  const board = libraryCircuit('bench-board');
  const seen = ['START: engine fires', 'ON after START: engine dies'].flatMap((f) => {
    const read = readFinding(f, board);
    return read.ok ? read.value : [];
  });
  const { next } = diagnosisView(board, diagnose(board, seen));
  expect(next.length).toBeGreaterThan(2);
  for (const r of next) {
    const asks = readingAsks(r);
    const phrases = asks.form === 'figure' ? [asks.phrase(1.5)] : asks.words.map((w) => w.finding);
    for (const phrase of phrases) expect(readFinding(phrase, board).ok, phrase).toBe(true);
  }
}, 60_000);
