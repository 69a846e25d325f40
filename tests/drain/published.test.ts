import { expect, test } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import type { Suspect } from '../../src/diagnose/suspects.ts';
import { drainCase } from '../../src/drain/drainBelief.ts';
import { vehicle } from '../circuits/vehicle.ts';
import { drainCases, notTold } from './published.ts';

const kept = new Map<string, Predictor>();
function predictorOf(name: string): Predictor {
  const known = kept.get(name) ?? new Predictor(vehicle(name as 'light-van').circuit);
  kept.set(name, known);
  return known;
}

const fit = (s: Suspect): number => s.grades[0]!.weighed.fits.reduce((sum, x) => sum + x, 0);

/** First group: what was found is at most 20 times less likely under it than under the leading suspect, so nothing that was done parts them. */
test.each(drainCases)('$id: $told ($src)', { timeout: 60_000 }, ({ circuit: name, saw, cause, cleared = [] }) => {
  const predictor = predictorOf(name);
  const findings = saw.flatMap((phrase) => {
    const read = readFinding(phrase, predictor.circuit);
    expect(read.ok, phrase).toBe(true);
    return read.ok ? read.value : [];
  });
  const { suspects, verdict } = drainCase(predictor.circuit, findings, {}, predictor);
  const called = (phrase: string) => suspects.find((s) => s.faults.length === 1 && s.faults[0]!.phrase.startsWith(phrase));
  expect(cause.length).toBeGreaterThan(0);
  for (const phrase of cause) {
    const own = called(phrase);
    expect(own, phrase).toBeDefined();
    expect(fit(suspects[0]!) - fit(own!), phrase).toBeLessThan(Math.log(20));
    expect(own!.probability, phrase).toBeGreaterThan(suspects[0]!.probability / 20);
  }
  for (const phrase of cleared) expect(called(phrase)!.probability, phrase).toBeLessThan(0.01);
  expect(verdict!.state).not.toBe('contradiction');
  expect(verdict!.state).not.toBe('nothing-fits');
});

test('every drain row that is left out says why', () => {
  expect(notTold.map((r) => r.id).filter((id) => drainCases.some((c) => c.id === id))).toEqual([]);
  for (const { why } of notTold) expect(why.length).toBeGreaterThan(20);
});
