import { expect, test, vi } from 'vitest';
import { stagesOf, usualTools } from '../../src/diagnose/candidates.ts';
import { belief, diagnose } from '../../src/diagnose/diagnose.ts';
import { singleHypotheses, together } from '../../src/diagnose/hypotheses.ts';
import { nextReadings } from '../../src/diagnose/nextReading.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { doubted, sameAs, secondLooks } from '../../src/diagnose/secondLooks.ts';
import { played } from '../../src/diagnose/technician.ts';
import { libraryCircuit, saw, seededRandom } from './library.ts';

vi.setConfig({ testTimeout: 240_000 });

const bike = libraryCircuit('motorcycle');
const predictor = new Predictor(bike);
const single = (phrase: string) => singleHypotheses(bike).find((h) => h.faults[0]?.phrase === phrase)!;

/** From the seeded sweep (`npm run sweep`); each fault is noticed by itself. */
test.each([
  ['W42b short to ground', 'F3 3 Ω'],
  ['E4/2-XE2 comes and goes 40 %', 'W30a open'],
])('two faults at once are among the first three suspects: %s and %s', (a, b) => {
  const search = played(predictor, together(single(a), single(b)), seededRandom(5), { slips: 0, most: 18 })!;
  expect(search.findings.length).toBeGreaterThan(3);
  expect(search.amongThree).toBe(true);
});

test('a pair of which one fault hides behind the other is no search for two', () => {
  expect(played(predictor, together(single('W22 open'), single('W29 leaks 2 kΩ')), seededRandom(5))).toBeUndefined();
});

test('what the leader leaves over is offered for a second look, and no more than three in all', () => {
  const looks = ['ON, S9 right: E6 dead', 'ON: H1 works', 'P: E2 works', 'ON, S9 left: E5 works'];
  const bulb = [...looks, 'ON, S9 right: 0 V at E6.1', 'ON, S9 right: 0 V at F4.2', 'ON, S9 right, unplugged E6: 0 V at F4.2'];
  const dim = 'ON: E1 weak';
  const once = diagnose(bike, saw(bike, ...bulb, dim), {}, predictor);
  const again = once.next.filter((r) => r.again);
  expect(again.map((r) => r.candidate.observable)).toEqual([{ of: 'load', load: 'E1' }]);
  expect(again[0]!.bits).toBeGreaterThan(0);
  const thrice = diagnose(bike, saw(bike, ...bulb, dim, dim, dim), {}, predictor);
  expect(doubted(thrice.suspects, thrice.findings)).toEqual([]);
});

test('a second look keeps what its scene costs and the caution of it, and is offered once however often it was told', () => {
  const van = libraryCircuit('light-van');
  const asked = new Predictor(van);
  const [cranking] = saw(van, 'START: A1 works');
  const stage = stagesOf(asked).find((s) => s.looks.some(sameAs(cranking!)) || s.unasked.some(sameAs(cranking!)))!;
  const told = saw(van, 'ON: H1 dead', 'ON: 0 V at S1.15', 'START: A1 works', 'START: A1 works');
  const { suspects, findings } = belief(van, told, {}, asked);
  const leader = { ...suspects[0]!, against: [2, 3] };
  const looks = secondLooks(asked, [leader, ...suspects.slice(1).map((s) => ({ ...s, against: [] }))], findings);
  expect(doubted([leader], findings)).toHaveLength(1);
  for (const { candidate } of looks) {
    expect(candidate.cautions).toEqual(expect.arrayContaining([...stage.cautions]));
    expect(candidate.minutes).toBeGreaterThanOrEqual(stage.minutes);
  }
});

test('a figure that most of the belief takes for a slip is read once more before anything else', () => {
  const diesel = libraryCircuit('diesel-estate');
  const asked = new Predictor(diesel);
  const said = saw(diesel, 'OFF: 11.5 A at G1.-', 'OFF: E5 dead', 'OFF: M2 dead');
  const { suspects, findings } = belief(diesel, said, {}, asked);
  const [next] = nextReadings(asked, suspects, findings, usualTools);
  expect([next!.again, next!.candidate.observable]).toEqual([true, said[0]!.observable]);
  // Read twice, it is believed, and the search goes on from there.
  const twice = belief(diesel, saw(diesel, 'OFF: 11.5 A at G1.-', 'OFF: E5 dead', 'OFF: M2 dead', 'OFF: 11.6 A at G1.-'), {}, asked);
  expect(nextReadings(asked, twice.suspects, twice.findings, usualTools)[0]!.again).toBe(false);
});
