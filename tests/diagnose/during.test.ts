import { expect, test, vi } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { singleHypotheses, together } from '../../src/diagnose/hypotheses.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { played } from '../../src/diagnose/technician.ts';
import { weigh } from '../../src/diagnose/weigh.ts';
import { libraryCircuit, saw, seededRandom } from './library.ts';

vi.setConfig({ testTimeout: 240_000 });

const boat = libraryCircuit('boat');
const predictor = new Predictor(boat);
const single = (phrase: string) => singleHypotheses(boat).find((h) => h.faults[0]?.phrase === phrase)!;

test.each([
  'ON, S5 hot: 0.02 V at B1.1 while B1 dead',
  'ON, S5 hot: 12.5 V from X1.6a to X1.6b while B1 dead',
  'ON: 0 A at G1.- with clamp while M2 weak',
  'ON: P1 works while B1 dead',
])('what was watched during a reading is read and said back: %s', (phrase) => {
  const [finding] = saw(boat, phrase);
  expect(finding!.observable).toMatchObject({ during: { word: /weak/.test(phrase) ? 'weak' : 'dead' } });
  const [again] = saw(boat, finding!.phrase);
  expect(again).toEqual(finding);
});

test('only a load can be watched meanwhile', () => {
  const read = readFinding('ON: 0 V at B1.1 while F1 dead', boat);
  expect(read.ok).toBe(false);
  expect(read.problems.map((p) => p.code)).toEqual(['not-a-load']);
});

test('a pin that comes and goes reads like an open one while its load is down, like a sound one while it works', () => {
  const [loose, open] = [single('X1.6 comes and goes 40 %'), single('X1.6 open')];
  const volts = (faults: (typeof loose)['faults'], meanwhile: string) => {
    const [asked] = saw(boat, `ON, S5 hot: 1 V from X1.6a to X1.6b${meanwhile}`);
    return predictor
      .expected(faults, asked!)
      .reduce((sum, { share, is }) => sum + share * (is.of === 'volts' ? (is.volt ?? 0) : Number.NaN), 0);
  };
  const [sound, broken] = [volts([], ''), volts(open.faults, '')];
  expect(broken - sound).toBeGreaterThan(10);
  // A slip of 2 % of those who watched is all that is left of the other world.
  expect(Math.abs(volts(loose.faults, ' while B1 dead') - broken)).toBeLessThan(0.05 * broken);
  expect(Math.abs(volts(loose.faults, ' while B1 works') - sound)).toBeLessThan(0.05 * broken);
});

test('whether two loads fail at the same moments tells one joint on both their ways from two joints', () => {
  const diesel = libraryCircuit('diesel-estate');
  const asked = new Predictor(diesel);
  const all = singleHypotheses(diesel);
  const of = (phrase: string) => all.find((h) => h.faults[0]?.phrase === phrase)!;
  const [common, first, second] = ['W34b', 'H1', 'H2'].map((id) => of(`${id} comes and goes 40 %`));
  const fits = (word: string) => {
    const list = saw(diesel, `ON: H1 ${word} while H2 dead`);
    return weigh(asked, [common!, together(first!, second!)], list).map((w) => w.score - Math.log(w.hypothesis.prior));
  };
  const [oneDead, twoDead] = fits('dead');
  const [oneWorks, twoWorks] = fits('works');
  expect(oneDead!).toBeGreaterThan(twoDead! + 0.5);
  expect(twoWorks!).toBeGreaterThan(oneWorks! + 2);
});

test('what comes and goes is found by reading while it is gone: common practice, no source', () => {
  const search = played(predictor, single('X1.6 comes and goes 40 %'), seededRandom(2), { slips: 0 })!;
  expect(search.isolated).toBe(true);
  expect(search.findings.some((f) => 'during' in f.observable)).toBe(true);
});
