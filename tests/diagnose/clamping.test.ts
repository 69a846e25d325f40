import { expect, test, vi } from 'vitest';
import { singleHypotheses } from '../../src/diagnose/hypotheses.ts';
import { clamping } from '../../src/diagnose/parting.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { played } from '../../src/diagnose/technician.ts';
import { changesOf } from '../../src/faults/fault.ts';
import { readingName, readingSteps } from '../../src/report/readingWords.ts';
import { clamp } from '../../src/solve/instruments.ts';
import { libraryCircuit, saw, seededRandom } from './library.ts';

vi.setConfig({ testTimeout: 240_000 });

const van = libraryCircuit('light-van');
const predictor = new Predictor(van);

test('of wires that run to one ground point a clamp round each finds the chafed one: common practice, no source', () => {
  const truth = singleHypotheses(van).find((h) => h.faults[0]?.phrase === 'E1/2-XE4 short to feed')!;
  const search = played(predictor, truth, seededRandom(2), { slips: 0 })!;
  expect(search.isolated).toBe(true);
  expect(search.state).toBe('proved');
  const clamped = search.findings.filter((f) => f.observable.of === 'amperes' && f.observable.at === 'E1/2-XE4.2');
  expect(clamped).toHaveLength(1);
  // The current is read where it flows, never again with one plug after another off.
  expect(search.findings.some((f) => f.observable.of === 'amperes' && f.scene.apart.length > 0)).toBe(false);
});

test('only wires are clamped, at both ends, in the scenes of what was amiss, and it is said round which', () => {
  const tried = clamping(predictor, ['E1/2-XE4', 'E1', 'F4'], saw(van, 'ON: A1 weak', 'ACC, unplugged X2: A1 dead'));
  expect(tried.map(({ observable }) => 'at' in observable && observable.at)).toEqual(['E1/2-XE4.1', 'E1/2-XE4.2']);
  expect(readingName(tried[1]!.observable, van)).toBe('current round wire E1/2-XE4 alone, near XE4.1');
  expect(readingSteps(tried[1]!, van)[0]).toBe('Clamp round wire E1/2-XE4 alone, near XE4.1.');
});

test('the bench shows round a wire, ideal or not, what the search expects there', () => {
  for (const id of ['E1/2-XE4', 'W12a']) {
    const { faults } = singleHypotheses(van).find((h) => h.faults[0]?.phrase === `${id} short to feed`)!;
    for (const end of ['1', '2']) {
      const [asked] = saw(van, `ON: 1 A at ${id}.${end} with clamp`);
      const [expected] = predictor.expected(faults, asked!);
      const read = clamp({ circuit: van, changes: changesOf(faults), scene: asked!.scene }, `${id}.${end}`);
      if (read.shows !== 'amperes' || expected?.is.of !== 'amperes') throw new Error('a clamp shows amperes');
      expect(Math.abs(Math.abs(read.amperes) - expected.is.ampere)).toBeLessThan(0.02 + 0.01 * expected.is.ampere);
    }
  }
});
