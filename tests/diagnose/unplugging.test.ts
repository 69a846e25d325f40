import { expect, test, vi } from 'vitest';
import { belief } from '../../src/diagnose/diagnose.ts';
import { findingText } from '../../src/diagnose/findingText.ts';
import { singleHypotheses } from '../../src/diagnose/hypotheses.ts';
import { nextReadings } from '../../src/diagnose/nextReading.ts';
import { unplugging } from '../../src/diagnose/parting.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { played } from '../../src/diagnose/technician.ts';
import { readingSteps } from '../../src/report/readingWords.ts';
import { bench } from '../circuit/phraseCircuit.ts';
import { libraryCircuit, saw, seededRandom } from './library.ts';

vi.setConfig({ testTimeout: 240_000 });

const tractor = libraryCircuit('tractor');
const predictor = new Predictor(tractor);

test('pieces of one run at one potential are parted by unplugging what lies between: common practice, no source', () => {
  const truth = singleHypotheses(tractor).find((h) => h.faults[0]?.phrase === 'W12a short to ground')!;
  const search = played(predictor, truth, seededRandom(1), { slips: 0 })!;
  expect(search.isolated).toBe(true);
  expect(search.findings.some((f) => f.scene.apart.length > 0)).toBe(true);
});

test('what is unplugged for a reading is said, with the caution, and never the load or the point that is looked at', () => {
  const said = saw(tractor, 'START, S3 pressed: engine still', 'START, S3 pressed: 0.02 V at F4.1');
  const { suspects } = belief(tractor, said, {}, predictor);
  const parts = suspects.slice(0, 12).flatMap((s) => s.faults.map((f) => f.part));
  const tried = unplugging(predictor, parts, said);
  expect(tried.length).toBeGreaterThan(3);
  for (const { scene, observable, cautions, effort } of tried) {
    expect(scene.apart).toHaveLength(1);
    expect(cautions.join()).toMatch(/disconnect the battery before unplugging an unfused feed/);
    expect(effort).toBe(2);
    if (observable.of === 'volts') expect(observable.at.startsWith(`${scene.apart[0]}.`)).toBe(false);
    if (observable.of === 'load') expect(observable.load).not.toBe(scene.apart[0]);
  }
  const next = nextReadings(predictor, suspects, said, ['meter']);
  expect(next.length).toBeGreaterThan(0);
});

test('what a suspect blows is renewed before a plug is judged, and that is said: a fuse stays blown', () => {
  const estate = libraryCircuit('diesel-estate');
  const asked = new Predictor(estate);
  const short = singleHypotheses(estate).find((h) => h.faults[0]?.phrase === 'W21a short to ground')!;
  const said = saw(estate, 'ON: H3 dead', 'ON: 0 V at H3.1');
  const tried = unplugging(asked, ['W21a'], said, [short.faults]);
  expect(tried.length).toBeGreaterThan(0);
  for (const t of tried.filter((c) => !c.scene.apart.includes('F1'))) {
    expect(t.renews).toEqual(['F1']);
    expect(readingSteps(t, estate).join(' ')).toMatch(/Put a new F1 .*or a test lamp in its place/);
    expect(t.cautions.join()).toMatch(/a new fuse of the same rating only/);
  }
  expect(unplugging(asked, ['W21a'], said, []).every((c) => c.renews === undefined)).toBe(true);
});

test('tried is what is suspected and what a suspected wire is fastened to, never a wire or a supply', () => {
  const asked = new Predictor(bench);
  const amiss = saw(bench, 'key out: 400 mA at G1.-');
  const parts = (...suspected: readonly string[]) => unplugging(asked, suspected, amiss).map((c) => c.scene.apart.join());
  expect(parts('W8')).toEqual(['S3', 'R3']);
  expect(parts('F3', 'W8', 'W9')).toEqual(['F3', 'S3', 'R3', 'M3']);
  expect(parts('W1')).toEqual(['J1']);
  expect(parts('G1')).toEqual([]);
  expect(parts()).toEqual([]);
});

test('looked at again is the vehicle as it stands, in the last two scenes, and of currents only the whole one', () => {
  const asked = new Predictor(bench);
  const tried = (...phrases: readonly string[]) =>
    unplugging(asked, ['S3'], saw(bench, ...phrases)).map((c) =>
      findingText({ ...c, seen: { word: 'dead' } }, bench)
        .replace(/ dead$/, '')
        .trim(),
    );
  expect(tried('ON: T1 dead')).toEqual(['ON, unplugged S3: T1']);
  expect(tried('ON, unplugged S8: T1 dead', 'ON, bridged S3.30 S3.a: T1 dead', 'swapped S1, ON: T1 dead')).toEqual([]);
  expect(tried('ON: 0.3 A at T1.15')).toEqual([]);
  expect(tried('wiggled S3: changes', 'swapped S1: cured')).toEqual([]);
  expect(tried('ON: E2 dead', 'START: T1 dead', 'ON after START: T1 dead')).toEqual([
    'ON after START, unplugged S3: T1',
    'START, unplugged S3: T1',
  ]);
});
