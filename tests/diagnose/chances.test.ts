import { describe, expect, test } from 'vitest';
import { type Branching, branchingAfter, conditioned, entropy, informationBits, posterior } from '../../src/diagnose/bayes.ts';
import { checkOrder, costOfOrder } from '../../src/diagnose/checkOrder.ts';
import { expectedCost, expectedTests, leastCost, type PlanTest, planned } from '../../src/diagnose/decisionTree.ts';
import { minimalSets } from '../../src/diagnose/minimalSets.ts';
import { Recent } from '../../src/diagnose/recent.ts';

/** A test's outcomes from P(outcome | state), a row for each outcome. */
const branching = (mass: readonly number[], ...rows: readonly (readonly number[])[]): readonly Branching[] =>
  rows.map((row) => {
    const shares = Float64Array.from(row, (p, s) => p * mass[s]!);
    return { probability: shares.reduce((sum, x) => sum + x, 0), shares };
  });

describe('shares', () => {
  test('scores are logarithms up to a common summand, however far down they lie', () => {
    const shares = [...posterior([-1000, -1000 + Math.log(3), Number.NEGATIVE_INFINITY])];
    expect(shares).toEqual([expect.closeTo(0.25, 12), expect.closeTo(0.75, 12), 0]);
    expect([...posterior([7])]).toEqual([1]);
    expect([...posterior([])]).toEqual([]);
  });

  // C. E. Shannon, Bell System Technical Journal 27 (1948), section 6 (from memory): the entropy is 0 where one is certain, log n where n
  // are alike, and of (1/2, 1/3, 1/6) it is 1/2 + (log 3)/3 + (log 6)/6, by hand 1.459 bits.
  test('entropy, with what cannot be counted as nothing', () => {
    expect(entropy([1])).toBe(0);
    expect(entropy([0, 1, 0])).toBe(0);
    expect(entropy([0.5, 0.5, 0])).toBe(1);
    expect(entropy([0.25, 0.25, 0.25, 0.25])).toBe(2);
    expect(entropy([1 / 2, 1 / 3, 1 / 6])).toBeCloseTo(0.5 + Math.log2(3) / 3 + Math.log2(6) / 6, 12);
    expect(entropy([1 / 2, 1 / 3, 1 / 6])).toBeCloseTo(1.459, 3);
  });

  // The symmetric channel that errs once in ten carries 1 − H(0.1) = 0.531 bits of an even input (T. M. Cover, J. A. Thomas, from memory).
  test('a reading without error is worth the entropy of its outcome, one that errs less, one that says the same of all nothing', () => {
    const even = [0.5, 0.5];
    expect(informationBits(branching(even, [1, 0], [0, 1]), even)).toBeCloseTo(1, 12);
    expect(informationBits(branching(even, [0.9, 0.1], [0.1, 0.9]), even)).toBeCloseTo(1 - entropy([0.1, 0.9]), 12);
    expect(informationBits(branching(even, [0.9, 0.1], [0.1, 0.9]), even)).toBeCloseTo(0.531, 3);
    expect(informationBits(branching(even, [0.3, 0.3], [0.7, 0.7]), even)).toBeCloseTo(0, 12);
    const mass = [0.5, 0.25, 0.25, 0];
    expect(informationBits(branching(mass, [1, 0, 0, 0], [0, 1, 1, 1]), mass)).toBeCloseTo(1, 12);
    expect(informationBits(branching(mass, [1, 0, 0, 1], [0, 1, 0, 0], [0, 0, 1, 0]), mass)).toBeCloseTo(entropy(mass), 12);
  });

  test('after an outcome the rest is weighed anew by Bayes, and a second reading with it', () => {
    const mass = [0.2, 0.3, 0.5];
    const [yes] = branching(mass, [1, 0.5, 0], [0, 0.5, 1]);
    const now = conditioned(yes!);
    // 0.2 and 0.15 of 0.35.
    expect([...now]).toEqual([expect.closeTo(4 / 7, 12), expect.closeTo(3 / 7, 12), 0]);
    const second = branchingAfter(branching(mass, [0.1, 0.8, 1], [0.9, 0.2, 0]), mass, now);
    expect(second.map((o) => o.probability)).toEqual([
      expect.closeTo((4 / 7) * 0.1 + (3 / 7) * 0.8, 12),
      expect.closeTo((4 / 7) * 0.9 + (3 / 7) * 0.2, 12),
    ]);
    expect([...second[0]!.shares]).toEqual([expect.closeTo(0.4 / 7, 12), expect.closeTo(2.4 / 7, 12), 0]);
    // A state that was out from the beginning stays out.
    const none = branchingAfter(branching([0, 1], [0, 1], [0, 0]), [0, 1], [0.5, 0.5]);
    expect([...none[0]!.shares]).toEqual([0, 0.5]);
  });
});

describe('smallest sets', () => {
  const asked: string[] = [];
  const sets = (items: number, wanted: readonly (readonly number[])[], most = 3) => {
    asked.length = 0;
    return minimalSets(
      items,
      (set) => {
        asked.push(set.join(''));
        return wanted.some((w) => w.every((x) => set.includes(x)));
      },
      most,
    );
  };
  test('a set that holds is never grown on, and none of more than `most` is asked', () => {
    expect(sets(4, [[1], [0, 2], [0, 2, 3]])).toEqual([[1], [0, 2]]);
    // What holds all of one that holds is asked for no more: 12 and 13 are grown on 1 alone, and 01 holds it.
    expect(asked.filter((a) => a.startsWith('1'))).toEqual(['1']);
    expect(asked).not.toContain('012');
    expect(asked).not.toContain('023');
    expect(sets(4, [[0, 1, 2]], 2)).toEqual([]);
    expect(Math.max(...asked.map((a) => a.length))).toBe(2);
    expect(sets(4, [[0, 1, 2]], 3)).toEqual([[0, 1, 2]]);
  });
  test('what holds of nothing at all is the empty set; of no items nothing is asked twice', () => {
    expect(sets(3, [[]])).toEqual([[]]);
    expect(sets(0, [[0]])).toEqual([]);
    expect(asked).toEqual(['']);
  });
});

describe('order of checks', () => {
  const checks = [
    { probability: 0.2, cost: 10 },
    { probability: 0.5, cost: 50 },
    { probability: 0.3, cost: 10 },
    { probability: 0.1, cost: 5 },
  ];
  test('by probability over cost, equals as they come, and no other order is cheaper', () => {
    const { order, cost } = checkOrder(checks);
    expect(order).toEqual([2, 0, 3, 1]);
    // 0.3·10 + 0.2·20 + 0.1·25 + 0.5·75
    expect(cost).toBeCloseTo(47, 12);
    const orders = (left: readonly number[]): readonly (readonly number[])[] =>
      left.length === 0 ? [[]] : left.flatMap((k) => orders(left.filter((x) => x !== k)).map((rest) => [k, ...rest]));
    expect(Math.min(...orders([0, 1, 2, 3]).map((o) => costOfOrder(checks, o)))).toBeCloseTo(cost, 12);
    expect(checkOrder([])).toEqual({ order: [], cost: 0 });
  });
});

describe('a plan of readings', () => {
  const mass = Float64Array.of(0.4, 0.3, 0.2, 0.1);
  const row = [...mass];
  const asks = (what: string, cost: number, yes: readonly number[]): PlanTest<string> => ({
    what,
    cost,
    outcomes: branching(
      row,
      yes,
      yes.map((y) => 1 - y),
    ),
  });
  const tests = [
    asks('halves', 4, [1, 0, 0, 1]),
    asks('first', 3, [1, 0, 0, 0]),
    asks('second', 3, [0, 1, 0, 0]),
    asks('none', 1, [1, 1, 1, 1]),
  ];

  test('it goes on until one is certain, asks nothing that tells nothing and nothing twice', () => {
    const tree = planned(tests, mass);
    const walk = (at: typeof tree, used: readonly string[], p: number): number => {
      if (at.leaf) {
        expect(Math.max(...at.mass)).toBeCloseTo(1, 9);
        return p;
      }
      expect(used).not.toContain(at.test.what);
      expect(at.test.what).not.toBe('none');
      return at.branches.reduce((sum, b) => sum + walk(b.next, [...used, at.test.what as string], p * b.probability), 0);
    };
    expect(walk(tree, [], 1)).toBeCloseTo(1, 9);
    expect(expectedTests(tree)).toBeCloseTo(
      expectedCost(
        planned(
          tests.map((t) => ({ ...t, cost: 1 })),
          mass,
        ),
      ),
      9,
    );
  });
  test('the best of all plans is never dearer, and its first readings are told', () => {
    const best = leastCost(tests, mass)!;
    expect(best.cost).toBeLessThanOrEqual(expectedCost(planned(tests, mass)) + 1e-9);
    // `first`, and in the six of ten that it leaves `second`, and then `halves` for the last two: 3 + 0.6·3 + 0.3·4.
    expect(best.cost).toBeCloseTo(6, 9);
    expect(best.first.map((t) => t.what)).toEqual(['first']);
    expect(leastCost(tests, mass, {}, 0)).toBeUndefined();
    expect(leastCost(tests, Float64Array.of(0, 1, 0, 0))).toEqual({ cost: 0, first: [] });
    expect(leastCost([], mass)).toEqual({ cost: 0, first: [] });
    // What is certain enough, or repaired alike, needs no reading.
    expect(leastCost(tests, mass, { certain: 0.4 })).toEqual({ cost: 0, first: [] });
    expect(leastCost(tests, mass, { same: [1, 1, 1, 1] })).toEqual({ cost: 0, first: [] });
    expect(leastCost(tests, mass, { same: [1, 2, 2, 2] })).toMatchObject({ cost: expect.closeTo(3, 9) });
  });
  test('what is certain enough, repaired alike, too deep or too rare ends it', () => {
    const at = (options: Parameters<typeof planned>[2]) => planned(tests, mass, options);
    expect(at({ certain: 0.4 }).leaf).toBe(true);
    expect(at({ certain: 0.41 }).leaf).toBe(false);
    expect(at({ same: [7, 7, 7, 7] }).leaf).toBe(true);
    expect(at({ same: [7, 7, 7, 8], certain: 0.89 }).leaf).toBe(true);
    expect(at({ same: [7, 7, 7, 8], certain: 0.95 }).leaf).toBe(false);
    expect(at({ deepest: 0 }).leaf).toBe(true);
    const one = at({ deepest: 1 });
    expect(one.leaf === false && one.branches.every((b) => b.next.leaf)).toBe(true);
    const frequent = at({ followed: 0.35 });
    expect(frequent.leaf === false && frequent.branches.every((b) => b.probability >= 0.35)).toBe(true);
    expect(planned([tests[3]!], mass).leaf).toBe(true);
    expect(planned([], mass)).toEqual({ leaf: true, mass });
  });
  test('looking ahead is never dearer than taking what tells most for its minutes at once', () => {
    let compared = 0;
    for (let k = 0; k < 40; k++) {
      const made = [0, 1, 2, 3].map((t) =>
        asks(
          `t${t}`,
          1 + ((k * 7 + t * 5) % 9),
          [0, 1, 2, 3].map((s) => ((k >> ((s + t) % 5)) + s * t) % 2),
        ),
      );
      const [greedy, ahead, best] = [planned(made, mass, { tried: 1 }), planned(made, mass, { tried: 6 }), leastCost(made, mass)!];
      const ends = (tree: typeof greedy): number =>
        tree.leaf ? Math.max(...tree.mass) : Math.min(...tree.branches.map((b) => ends(b.next)));
      if (ends(greedy) < 1 - 1e-9) continue;
      compared++;
      expect(expectedCost(ahead)).toBeLessThanOrEqual(expectedCost(greedy) + 1e-9);
      expect(best.cost).toBeLessThanOrEqual(expectedCost(ahead) + 1e-9);
    }
    expect(compared).toBeGreaterThan(10);
  });
});

test('of what was asked for last at least half as many as may be are kept, and never more than may be', () => {
  const kept = new Recent<string>(4);
  const held = () => [1, 2, 3, 4, 5, 6, 7].filter((k) => kept.get(k) !== undefined);
  for (const k of [1, 2, 3]) kept.set(k, `v${k}`);
  expect(kept.get(2)).toBe('v2');
  expect(kept.get(3)).toBe('v3');
  expect(kept.get(9)).toBeUndefined();
  kept.set(4, 'v4');
  kept.set(5, 'v5');
  expect(held().length).toBeLessThanOrEqual(4);
  expect(kept.get(5)).toBe('v5');
  expect(kept.get(4)).toBe('v4');
  // What is used all the time stays, whatever comes besides.
  const used = new Recent<number>(6);
  used.set(0, 100);
  for (let k = 1; k < 50; k++) {
    used.set(k, k);
    expect(used.get(0)).toBe(100);
  }
  // At least one is kept.
  const least = new Recent<number>(0);
  least.set(1, 10);
  expect(least.get(1)).toBe(10);
});
