import { describe, expect, test } from 'vitest';
import type { EngineWord, Seen } from '../../src/diagnose/finding.ts';
import { amperesTolerance, density, fuseDropTolerance, likelihood, slipScore, voltsTolerance } from '../../src/diagnose/likelihood.ts';
import type { Prediction } from '../../src/diagnose/predict.ts';

const one = (seen: Seen, is: Prediction) => likelihood(seen, [{ share: 1, is }]);
const load = (verdict: 'works' | 'weak' | 'dead' | 'chatters', watts = 0): Prediction => ({ of: 'load', verdict, watts });
const words = ['works', 'weak', 'dead', 'comes and goes'] as const;
const volts = (volt: number | null, more: object = {}): Prediction =>
  ({ of: 'volts', volt, wide: false, range: 14, spread: 0, ...more }) as Prediction;
const amperes = (ampere: number, spread = 0): Prediction => ({ of: 'amperes', ampere, spread, drift: 0.01 }) as Prediction;
const ohms = (ohm: number): Prediction => ({ of: 'ohms', ohm }) as Prediction;
const engine = (cranks: boolean, alive: boolean, more: object = {}): Prediction =>
  ({ of: 'engine', cranks, alive, slowly: false, turning: false, ...more }) as Prediction;

/** Area under a curve by the midpoint rule. */
function area(curve: (x: number) => number, from: number, to: number, steps = 20_000): number {
  const width = (to - from) / steps;
  let sum = 0;
  for (let k = 0; k < steps; k++) sum += curve(from + (k + 0.5) * width) * width;
  return sum;
}

describe('words about a load', () => {
  test.each(['works', 'weak', 'dead', 'chatters'] as const)('%s: one of the words is said, and the right one most often', (verdict) => {
    const chances = words.map((word) => one({ word }, load(verdict)));
    expect(chances.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
    const right = verdict === 'chatters' ? 'comes and goes' : verdict;
    expect(words[chances.indexOf(Math.max(...chances))]).toBe(right);
  });

  test('a load that is now so and now so is noticed to come and go as a rule; if not, it is called what it was at that moment', () => {
    const both = [
      { share: 0.7, is: load('works') },
      { share: 0.3, is: load('dead') },
    ];
    const noticed = likelihood({ word: 'comes and goes' }, both);
    expect(noticed).toBeGreaterThan(0.5);
    expect(likelihood({ word: 'works' }, both) / likelihood({ word: 'dead' }, both)).toBeGreaterThan(2);
    expect(words.reduce((sum, word) => sum + likelihood({ word }, both), 0)).toBeCloseTo(1, 2);
    // Two worlds that look alike are one.
    const alike = both.map((w) => ({ ...w, is: load('works') }));
    expect(likelihood({ word: 'works' }, alike)).toBeCloseTo(one({ word: 'works' }, load('works')), 12);
    expect(likelihood({ word: 'comes and goes' }, alike)).toBeCloseTo(one({ word: 'comes and goes' }, load('works')), 12);
  });

  test('what was not tried tells nothing, in one world or in two; what is hot draws power', () => {
    const both = [
      { share: 0.5, is: load('works', 10) },
      { share: 0.5, is: load('dead', 0) },
    ];
    expect(likelihood({ word: 'not tried' }, both)).toBe(1);
    expect(one({ word: 'not tried' }, load('dead'))).toBe(1);
    const hot = [5, 1, 0.1].map((watts) => one({ word: 'hot' }, load('works', watts)));
    expect(hot[0]!).toBeGreaterThan(hot[1]!);
    expect(hot[1]!).toBeGreaterThan(hot[2]!);
    expect(hot[2]!).toBeGreaterThan(0);
    expect(likelihood({ word: 'hot' }, both)).toBeCloseTo((hot[0]! + one({ word: 'hot' }, load('dead', 0))) / 2, 12);
  });
});

describe('words about the engine', () => {
  const right: readonly (readonly [EngineWord, Prediction, Prediction])[] = [
    ['cranks', engine(true, false), engine(false, false)],
    ['cranks', engine(true, true), engine(true, true, { slowly: true })],
    ['cranks slowly', engine(true, true, { slowly: true }), engine(true, true)],
    ['cranks slowly', engine(true, true), engine(false, true)],
    ['fires', engine(true, true), engine(true, false)],
    ['fires', engine(true, true), engine(false, true)],
    ['fires', engine(false, true), engine(false, false)],
    ['runs', engine(false, true), engine(false, false)],
    ['dies', engine(false, false), engine(false, true)],
    ['still', engine(false, false), engine(true, false)],
    ['still', engine(false, true), engine(false, true, { turning: true })],
    ['still', engine(false, true, { turning: true }), engine(true, true, { turning: true })],
  ];
  test.each(right)('`%s` is said of %o rather than of %o', (word, more, less) => {
    expect(one({ engine: word }, more)).toBeGreaterThan(one({ engine: word }, less));
    expect(one({ engine: word }, less)).toBeGreaterThan(0);
  });
  test('an engine that is still though spark and fuel are there is nothing strange unless it was turning', () => {
    expect(one({ engine: 'still' }, engine(false, true))).toBe(one({ engine: 'still' }, engine(false, false)));
    expect(one({ engine: 'still' }, engine(false, false, { turning: true }))).toBe(one({ engine: 'still' }, engine(false, false)));
  });
});

describe('values', () => {
  test('a density: what lies under it over the whole range and the tails is one', () => {
    for (const sigma of [0.05, 0.4]) expect(area((x) => density(x, 5, sigma, 14), 5 - 9.8, 5 + 9.8)).toBeCloseTo(1, 3);
    expect(density(5.3, 5, 0.2, 14)).toBeCloseTo(density(4.7, 5, 0.2, 14), 12);
  });

  test('the nearer the likelier, and a far one is left what a slip has', () => {
    for (const is of [volts(12), amperes(5), ohms(3)]) {
      const expected = is.of === 'volts' ? 12 : is.of === 'amperes' ? 5 : 3;
      const fits = [0, 0.3, 1, 1.5, 9].map((off) => one({ value: expected + off }, is));
      expect([...fits].sort((a, b) => b - a)).toEqual(fits);
      expect(fits.at(-1)!).toBeGreaterThan(0);
      expect(one({ value: expected - 0.3 }, is)).toBeLessThan(fits[0]!);
    }
  });

  test('a slip counts a little more than what a reading that fits nothing is left', () => {
    const far = Math.log(one({ value: 0 }, volts(12)));
    expect(slipScore({ value: 0 }, 14)).toBeGreaterThan(far);
    expect(slipScore({ value: 0 }, 14) - far).toBeLessThan(Math.log(2));
    expect(slipScore({ value: 0 }, 28)).toBeLessThan(slipScore({ value: 0 }, 14));
    expect(slipScore({ word: 'dead' }, 14)).toBe(slipScore({ engine: 'dies' }, 28));
    expect(Math.exp(slipScore({ word: 'dead' }, 14))).toBeGreaterThan(one({ word: 'dead' }, load('works')));
    expect(Math.exp(slipScore({ word: 'dead' }, 14))).toBeLessThan(one({ word: 'dead' }, load('weak')));
  });

  test('a point that is tied to nothing shows nothing, or now and then a ghost, rather than any one voltage', () => {
    const free = volts(null);
    expect(one({ value: 0 }, free)).toBeGreaterThan(one({ value: 3 }, free));
    expect(one({ value: 3 }, free)).toBeGreaterThan(one({ value: 3 }, volts(0)));
    expect(one({ value: 3 }, free)).toBeGreaterThan(one({ value: 13 }, free));
    expect(area((value) => one({ value }, free), -9.8, 9.8)).toBeCloseTo(1, 1);
  });

  test('between two grades anything is possible: an exact match is left half of what it was, what lies between gains', () => {
    for (const [is, spread] of [
      [volts(6), volts(6, { spread: 2 })],
      [amperes(5), amperes(5, 4)],
    ] as const) {
      const at = is.of === 'volts' ? 6 : 5;
      expect(one({ value: at + 2.5 }, spread)).toBeGreaterThan(one({ value: at + 2.5 }, is));
      expect(one({ value: at }, spread)).toBeLessThan(one({ value: at }, is));
    }
    expect(one({ value: 5 }, amperes(5, 4)) / one({ value: 5 }, amperes(5))).toBeGreaterThan(0.5);
  });

  test('tolerances grow with what is read, whatever its sign; a supply whose state nobody knows makes them wider', () => {
    expect(voltsTolerance(-12, false)).toBe(voltsTolerance(12, false));
    expect(voltsTolerance(12, false)).toBeGreaterThan(voltsTolerance(1, false));
    expect(voltsTolerance(12, true)).toBeGreaterThan(voltsTolerance(12, false));
    expect(voltsTolerance(0, true)).toBe(voltsTolerance(0, false));
    expect(amperesTolerance(-5)).toBe(amperesTolerance(5));
    expect(amperesTolerance(5)).toBeGreaterThan(amperesTolerance(1));
    expect(amperesTolerance(0, 0.001)).toBe(0.001);
    expect(one({ value: 11 }, volts(12, { wide: true }))).toBeGreaterThan(one({ value: 11 }, volts(12)));
  });

  test('millivolts across a fuse: read as finely as they come, and a slip there weighs as much as in volts', () => {
    const shunt = { ohm: 0.0065, rating_A: 10, spread: 0.1, source: 'made for this test' };
    const drop = (volt: number) => volts(volt, { shunt });
    expect(one({ value: 0.005 }, drop(0.005))).toBeGreaterThan(10 * one({ value: 0 }, drop(0.005)));
    expect(one({ value: 0.005 }, drop(0.005))).toBeGreaterThan(10 * one({ value: 0.005 }, drop(0)));
    expect(one({ value: 0.1 }, drop(0)) / one({ value: 12 }, volts(0))).toBeCloseTo(1, 6);
    expect(one({ value: 12 }, drop(12))).toBe(one({ value: 12 }, volts(12)));
    const tolerance = (volt: number) => fuseDropTolerance(volt, shunt);
    expect(tolerance(0)).toBe(5e-5);
    expect(tolerance(-0.02)).toBe(tolerance(0.02));
    expect(tolerance(0.02)).toBeGreaterThan(tolerance(0.005));
    // Beyond the millivolt range the size counts no more.
    expect(tolerance(5)).toBe(tolerance(0.2));
  });

  test('ohms: open is open, a bad joint is neither open nor good', () => {
    const open = Number.POSITIVE_INFINITY;
    const ofOpen = [open, 5e4, 3].map((ohm) => one({ value: open }, ohms(ohm)));
    expect([...ofOpen].sort((a, b) => b - a)).toEqual(ofOpen);
    expect(ofOpen[1]!).toBeGreaterThan(ofOpen[2]!);
    expect(one({ value: 3 }, ohms(open))).toBeLessThan(one({ value: 3 }, ohms(30)));
    expect(one({ value: 3 }, ohms(open))).toBeGreaterThan(0);
    // Leads have 0.2 Ω or so: what is under them tells little.
    expect(one({ value: 0.1 }, ohms(0.01)) / one({ value: 0.01 }, ohms(0.01))).toBeGreaterThan(0.5);
    expect(one({ value: 1e6 }, ohms(1e6))).toBe(ofOpen[0]);
  });

  test('a finding of another sort than what is predicted tells nothing', () => {
    expect(one({ value: 3 }, load('works'))).toBe(1);
    expect(one({ engine: 'runs' }, volts(3))).toBe(1);
    expect(one({ outcome: 'cured' }, volts(3))).toBe(1);
    expect(one({ word: 'works' }, volts(3))).toBe(1);
  });

  test('what an exchange brought has the chance that was told for it, or that of a slip', () => {
    const is: Prediction = { of: 'outcome', chance: { cured: 0.9 } };
    expect(one({ outcome: 'cured' }, is)).toBe(0.9);
    expect(one({ outcome: 'changes' }, is)).toBeGreaterThan(0);
    expect(one({ outcome: 'changes' }, is)).toBeLessThan(0.1);
  });
});
