import { describe, expect, test } from 'vitest';
import { Predictor } from '../../../src/diagnose/predict.ts';
import { drainAnswer } from '../../../src/drain/drainAnswer.ts';
import type { Log } from '../../../src/drain/log/readLog.ts';
import { stepsIn } from '../../../src/drain/log/steps.ts';
import { staircase } from '../../../src/drain/staircase.ts';
import { logLines } from '../../../src/report/drainLogLines.ts';
import { vehicle } from '../../circuits/vehicle.ts';

/** A made log: the level at each second, with a steady little scatter. Invented. */
function made(length: number, level: (second: number) => number, noise = 4e-4, every = 1): Log {
  const seconds = Float64Array.from({ length }, (_, k) => k * every);
  // A fixed sequence that looks random: no seed, no clock.
  const amperes = seconds.map((s, k) => level(s) + noise * (((k * 7919) % 997) / 498 - 1));
  return { seconds, amperes, warnings: [], skipped: 0, turned: false };
}

test('levels and steps of a staircase', () => {
  const { levels, steps, beats, gaps } = stepsIn(made(1000, (s) => (s < 60 ? 0.45 : s < 600 ? 0.12 : 0.024)));
  expect(levels.map((l) => Math.round(1000 * l.amperes))).toEqual([450, 120, 24]);
  expect(steps.map((s) => s.at_s)).toEqual([60, 600]);
  expect(beats).toEqual([]);
  expect(gaps).toEqual([]);
});

test('a spike of two rows is no step', () => {
  const { levels } = stepsIn(made(300, (s) => (s === 100 || s === 101 ? 2 : 0.02)));
  expect(levels).toHaveLength(1);
});

test('a small step under the noise is left alone, a small step over it is found', () => {
  expect(stepsIn(made(600, (s) => (s < 300 ? 0.022 : 0.02))).levels).toHaveLength(1);
  expect(stepsIn(made(600, (s) => (s < 300 ? 0.03 : 0.02))).levels).toHaveLength(2);
});

test('a gap is told, and the level goes on behind it', () => {
  const log = made(400, () => 0.02);
  const seconds = log.seconds.map((s) => (s >= 200 ? s + 900 : s));
  const { gaps, levels } = stepsIn({ ...log, seconds });
  expect(gaps).toEqual([{ from_s: 199, to_s: 1100 }]);
  expect(levels).toHaveLength(1);
});

test('a thermostat beats evenly, a loose joint does not', () => {
  const even = stepsIn(made(7200, (s) => 0.02 + (s % 900 < 300 ? 3 : 0)));
  expect(even.beats).toHaveLength(1);
  expect(even.beats[0]).toMatchObject({ even: true });
  expect(even.beats[0]!.every_s).toBeCloseTo(900, 0);
  expect(even.beats[0]!.lasts_s).toBeCloseTo(300, 0);
  const starts = [100, 400, 2500, 2700, 6000];
  const uneven = stepsIn(made(7200, (s) => 0.02 + (starts.some((a) => s >= a && s < a + 60) ? 0.42 : 0)));
  expect(uneven.beats[0]).toMatchObject({ even: false, times: 5 });
});

describe('a log of the saloon whose modules fall asleep', () => {
  const { circuit } = vehicle('modern-saloon');
  const predictor = new Predictor(circuit);
  const stairs = staircase(circuit)!;
  const level = (s: number) => stairs.treads.filter((t) => t.from_s <= s).at(-1)!.amperes;

  test('every step is matched to the module that made it', { timeout: 60_000 }, () => {
    const { log } = drainAnswer(circuit, { log: made(900, level) }, predictor);
    const by = log!.matched.map((m) => m.by[0]?.part);
    expect(by).toContain('A1');
    expect(by.filter((p) => p === 'A2').length).toBe(2);
    expect(log!.finding!.phrase).toBe('key out: 24 mA at G1.-');
    expect(logLines(log!).join(' ')).toContain('A2 asleep');
  });

  test('a log that ends early gives no key-off current', () => {
    const { log } = drainAnswer(circuit, { log: made(400, level) }, predictor);
    expect(log!.finding).toBeUndefined();
    expect(logLines(log!).at(-1)).toContain('ends before everything sleeps');
  });

  test('what is over at the end is matched to what would draw it', { timeout: 60_000 }, () => {
    const { log } = drainAnswer(circuit, { log: made(900, (s) => level(s) + 0.05) }, predictor);
    expect(log!.over.some((m) => m.what.includes('draws 50 mA'))).toBe(true);
  });
});
