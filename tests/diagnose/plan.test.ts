import { describe, expect, test } from 'vitest';
import type { Tree } from '../../src/diagnose/decisionTree.ts';
import { expectedCost, expectedTests } from '../../src/diagnose/decisionTree.ts';
import { belief } from '../../src/diagnose/diagnose.ts';
import { plan } from '../../src/diagnose/plan.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { doubted, sameAs, secondLooks } from '../../src/diagnose/secondLooks.ts';
import type { NextReading } from '../../src/diagnose/survey.ts';
import { placeName } from '../../src/diagnose/verdict.ts';
import { bench } from '../circuit/phraseCircuit.ts';
import { saw } from './library.ts';

const said = saw(bench, 'ON: M3 dead', 'ON: T1 works', 'ON: H4 works');
const predictor = new Predictor(bench);

/** Every way through a plan: how likely, what it cost, where it ends. */
function ways(tree: Tree<NextReading>, probability = 1, minutes = 0): readonly { p: number; minutes: number; mass: Float64Array }[] {
  if (tree.leaf) return [{ p: probability, minutes, mass: tree.mass }];
  return tree.branches.flatMap((b) => ways(b.next, probability * b.probability, minutes + tree.test.cost));
}

describe('a plan', () => {
  const make = () => {
    const made = plan(bench, said, {}, predictor);
    return { made, all: ways(made.tree) };
  };
  test('costs what its ways cost, weighed by how likely they are', () => {
    const { made, all } = make();
    expect(all.length).toBeGreaterThan(2);
    // What comes about less often than once in two hundred is not followed.
    const followed = all.reduce((sum, w) => sum + w.p, 0);
    expect(followed).toBeGreaterThan(0.9);
    expect(followed).toBeLessThanOrEqual(1 + 1e-9);
    expect(made.minutes).toBeCloseTo(expectedCost(made.tree), 9);
    // The ways that are followed cost what they cost; those left out are counted with what they cost until then.
    expect(all.reduce((sum, w) => sum + w.p * w.minutes, 0)).toBeLessThanOrEqual(made.minutes + 1e-9);
    expect(made.readings).toBeCloseTo(expectedTests(made.tree), 9);
    expect(made.readings).toBeGreaterThan(0.5);
    expect(made.minutes).toBeGreaterThan(0.4 * made.readings);
  });
  test('no reading costs less than it takes by hand', () => {
    const { made } = make();
    const check = (tree: Tree<NextReading>): void => {
      if (tree.leaf) return;
      expect(tree.test.cost).toBeGreaterThanOrEqual(tree.test.what.minutes);
      for (const b of tree.branches) check(b.next);
    };
    check(made.tree);
  });
  test('begins with everything that is believed, faults that stay alone; masses sum to one', () => {
    const { made } = make();
    const { mass } = made.tree;
    expect([...mass].reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    for (const [k, p] of mass.entries()) if (p > 0) expect(made.suspects[k]!.faults.some((f) => f.mode.sometimes)).toBe(false);
    expect(made.suspects.some((s) => s.faults.some((f) => f.phrase === 'W9 open'))).toBe(true);
  });
  test('ends in one place nearly always', () => {
    const { made, all } = make();
    const certain = all.filter(({ mass }) => {
      const places = new Map<string, number>();
      let whole = 0;
      for (const [k, p] of mass.entries()) {
        if (p === 0) continue;
        const place = placeName(made.suspects[k]!);
        places.set(place, (places.get(place) ?? 0) + p);
        whole += p;
      }
      return Math.max(...places.values()) / whole > 0.9;
    });
    expect(certain.reduce((sum, w) => sum + w.p, 0)).toBeGreaterThan(0.8);
  });
  test('is never better than the best of all, where that is known', () => {
    const { made } = make();
    const few = plan(bench, [...said, ...saw(bench, 'ON: 0 V at S3.30', 'ON: 12.4 V at S1.75')], {}, predictor);
    if (few.optimum !== undefined) expect(few.minutes).toBeGreaterThanOrEqual(few.optimum - 1e-9);
    expect(few.minutes).toBeLessThan(made.minutes);
  });
});

describe('what does not fit is looked at once more', () => {
  const contrary = saw(bench, 'ON: M3 dead', 'ON: T1 works', 'ON: H4 works', 'ON, S3 at 1: 12.4 V at M3.1', 'ON, S3 at 1: 0 V at S1.75');
  const believing = () => belief(bench, contrary, {}, predictor).suspects;
  test('what speaks against the leader is doubted, each once, and at most three times over', () => {
    const suspects = believing();
    const doubts = doubted(suspects, contrary);
    expect(doubts.length).toBeGreaterThan(0);
    expect(new Set(doubts.map((f) => JSON.stringify([f.scene, f.observable]))).size).toBe(doubts.length);
    const again = [...contrary, ...doubts, ...doubts];
    expect(doubted(belief(bench, again, {}, predictor).suspects, again).filter((f) => sameAs(doubts[0]!)(f))).toEqual([]);
  });
  test('at the place and in the scene where it was seen, for what it costs there', () => {
    const suspects = believing();
    const looks = secondLooks(predictor, suspects, contrary);
    const doubts = doubted(suspects, contrary);
    expect(looks.length).toBeGreaterThan(0);
    for (const look of looks) {
      expect(look.again).toBe(true);
      expect(doubts.some(sameAs(look.candidate))).toBe(true);
      expect(look.bits).toBeGreaterThan(0);
      expect(look.minutes).toBeGreaterThan(0);
      expect(look.minutes).toBe(look.candidate.minutes);
      expect(look.worth).toBeLessThan(look.bits / look.minutes);
    }
    expect(looks.map((l) => l.worth)).toEqual(looks.map((l) => l.worth).sort((a, b) => b - a));
  });
  test('where nothing speaks against the leader there is none', () => {
    const plain = saw(bench, 'ON: M3 dead');
    const { suspects: agreed } = belief(bench, plain, {}, predictor);
    expect([doubted(agreed, plain), secondLooks(predictor, agreed, plain)]).toEqual([[], []]);
  });
});

test('looked at again is a load for what a look costs, a reading for a minute with what its place and its scene ask for', () => {
  const said = saw(bench, 'ON: M3 dead', 'ON, S3 at 1: 12.4 V at S3.a', 'ON, S3 at 1: 0 V at R3.1', 'LOCK: 9 V at T1.15', 'ACC: E2 works');
  const { suspects } = belief(bench, said, {}, predictor);
  const looks = secondLooks(predictor, suspects, said).map(({ candidate: c }) => ({
    of: 'at' in c.observable ? c.observable.at : 'load' in c.observable ? c.observable.load : '',
    minutes: Number(c.minutes.toFixed(2)),
    effort: c.effort,
    cautions: c.cautions,
  }));
  expect(looks).toEqual([
    { of: 'E2', minutes: 0.4, effort: 0, cautions: [] },
    { of: 'T1.15', minutes: 1, effort: 1, cautions: ['high voltage: keep clear while the engine turns'] },
  ]);
});
