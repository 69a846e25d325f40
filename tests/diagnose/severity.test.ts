import { expect, test } from 'vitest';
import { belief } from '../../src/diagnose/diagnose.ts';
import { bySuspect, singleHypotheses } from '../../src/diagnose/hypotheses.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { closer } from '../../src/diagnose/severity.ts';
import { weigh } from '../../src/diagnose/weigh.ts';
import { changesOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint, voltsAt } from '../../src/solve/operatingPoint.ts';
import { sound } from '../circuit/phraseCircuit.ts';
import { libraryCircuit, saw } from './library.ts';

const van = libraryCircuit('light-van');
const predictor = new Predictor(van);
/** What the van with this fault in it shows at these points, by the whole solver. */
function measured(fault: string, ...readings: readonly (readonly [scene: string, terminal: string])[]): readonly string[] {
  const net = network(van, changesOf([sound(readFault(fault, van))]));
  return readings.map(([scene, terminal]) => {
    const [asked] = saw(van, `${scene}: 1 V at ${terminal}`);
    return `${scene}: ${voltsAt(operatingPoint(net, asked!.scene), terminal)!.toFixed(2)} V at ${terminal}`;
  });
}

test('a contact worse than one grade and better than the next is found, and said how bad it is', () => {
  const readings = measured('S1.30-15 1.6 Ω', ['ON, S5 on', 'X2.3a'], ['ON, S2 at 2, S3 main', 'S1.15'], ['ON', 'S1.30']);
  const said = saw(van, 'ON: T1 weak', 'ON, S8 pressed: E1 weak', 'ACC: A1 works', ...readings);
  const [top] = belief(van, said, {}, predictor).suspects;
  expect(top!.faults.map((f) => f.mode.subject)).toEqual(['S1.30-15']);
  expect(top!.probability).toBeGreaterThan(0.9);
  // Grades are parted until a fifth more or less: a workshop meter tells no more.
  expect(top!.faults[0]!.detail / 1.6).toBeGreaterThan(0.8);
  expect(top!.faults[0]!.detail / 1.6).toBeLessThan(1.25);
});

test('to look closely at a suspect makes it no likelier beforehand: its grades share the prior that it had', () => {
  const said = saw(van, 'ON: T1 weak', 'ON, S8 pressed: E1 weak', 'ON, S5 on: 6.5 V at S1.15');
  const before = weigh(predictor, singleHypotheses(van), said);
  const after = closer(predictor, before, said);
  expect(after.length).toBeGreaterThan(before.length);
  const priors = (list: typeof before) =>
    [...bySuspect(list, (w) => w.hypothesis)].map(
      ([suspect, grades]) => [suspect, grades.reduce((sum, w) => sum + w.hypothesis.prior, 0)] as const,
    );
  const known = new Map(priors(before));
  for (const [suspect, prior] of priors(after)) expect(prior, suspect).toBeCloseTo(known.get(suspect)!, 12);
});
