import { expect, test } from 'vitest';
import { diagnose } from '../../src/diagnose/diagnose.ts';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { isProofKind } from '../../src/diagnose/verdict.ts';
import { libraryCircuit } from './library.ts';

const van = libraryCircuit('light-van');
const predictor = new Predictor(van);
const looks = [
  'START: engine fires',
  'ON after START: engine dies',
  'ON: T1 dead, A1 works',
  'between ON and START: T1 works',
  'ON: H1 dead',
  'between ON and START: H1 works',
  'ON: Y1 dead',
];
const search = (...phrases: string[]) =>
  diagnose(
    van,
    phrases.flatMap((p) => {
      const read = readFinding(p, van);
      if (!read.ok) throw new Error(p);
      return read.value;
    }),
    {},
    predictor,
  );

test('looks alone locate the contact and prove nothing; a reading that proves is offered', () => {
  const { verdict, next, suspects } = search(...looks);
  expect(suspects[0]?.faults.map((f) => f.phrase)).toEqual(['S1.30-15 open at ON']);
  expect(verdict.state).toBe('pinned');
  expect(next.length).toBeGreaterThan(0);
  for (const r of next) expect(isProofKind(r.candidate)).toBe(true);
}, 60_000);

test('the reading at the contact proves it', () => {
  const { verdict } = search(...looks, 'ON: 12.5 V from S1.30 to S1.15');
  expect(verdict.state).toBe('proved');
  expect(verdict.proof).toHaveLength(1);
}, 60_000);

test('a reading that any of the rivals would give as well proves nothing', () => {
  expect(search(...looks, 'ON: 12.5 V at G1.+').verdict.state).toBe('pinned');
}, 60_000);
