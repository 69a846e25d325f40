import { type Branching, branchingAfter, conditioned, informationBits } from './bayes.ts';

/** Something that can be tried: what it costs, and how it comes out for each state. */
export type PlanTest<T = unknown> = {
  readonly what: T;
  /** Minutes, or any other cost, > 0. */
  readonly cost: number;
  /** Shares by state as things stand at the beginning. */
  readonly outcomes: readonly Branching[];
};

/** A plan: what to try, and what then for each outcome. A leaf says what is left. */
export type Tree<T = unknown> =
  | { readonly leaf: true; readonly mass: Float64Array }
  | { readonly leaf: false; readonly mass: Float64Array; readonly test: PlanTest<T>; readonly branches: readonly Branch<T>[] };
export type Branch<T = unknown> = {
  /** Place among the outcomes of the test. */
  readonly outcome: number;
  readonly probability: number;
  readonly next: Tree<T>;
};

export type PlanOptions = {
  /** A state this likely ends the search. */
  readonly certain?: number;
  /** Tests whose whole greedy continuation is looked at before one is chosen; 1 is the plain greedy plan. */
  readonly tried?: number;
  /** Tests in a row at most. */
  readonly deepest?: number;
  /** Ends that come about less often than this are left out. */
  readonly followed?: number;
  /** States that count as one end: a place that is repaired alike. */
  readonly same?: readonly number[];
};

const leastBits = 1e-6;
/** Outcomes less likely than this are not followed. */
const leastShare = 1e-6;

/**
 * A plan by bounded lookahead: the tests with most bits for their cost are each followed by the greedy plan to its
 * end, and the one with the least expected cost is taken; so again at every branch. Never dearer than greedy by more
 * than its own estimate errs, and the greedy plan itself when `tried` is 1.
 *
 * @param mass P(state) at the beginning, against which the tests' shares are held
 * Cost: tests · tried · nodes of the tree, each a pass over the states.
 * Source: rollout of a base policy: D. P. Bertsekas, Dynamic Programming and Optimal Control I, ch. 6 (from memory).
 */
export function planned<T>(tests: readonly PlanTest<T>[], mass: Float64Array, options: PlanOptions = {}): Tree<T> {
  const search = new Search(tests, mass, options);
  return search.tree(mass, options.deepest ?? 24, options.tried ?? 6, []);
}

/** Expected cost of a plan. */
export function expectedCost(tree: Tree): number {
  if (tree.leaf) return 0;
  return tree.test.cost + tree.branches.reduce((sum, b) => sum + b.probability * expectedCost(b.next), 0);
}

/** Expected number of tests of a plan. */
export function expectedTests(tree: Tree): number {
  return tree.leaf ? 0 : 1 + tree.branches.reduce((sum, b) => sum + b.probability * expectedTests(b.next), 0);
}

/**
 * Least expected cost of any plan, by trying all of them.
 *
 * @returns undefined when more than `most` different beliefs would have to be looked at
 * Cost: exponential; for a dozen states and tests.
 */
export function leastCost<T>(
  tests: readonly PlanTest<T>[],
  mass: Float64Array,
  options: PlanOptions = {},
  most = 20_000,
): { readonly cost: number; readonly first: readonly PlanTest<T>[] } | undefined {
  return new Search(tests, mass, options).optimum(mass, most);
}

class Search<T> {
  private readonly tests: readonly PlanTest<T>[];
  private readonly root: Float64Array;
  private readonly certain: number;
  private readonly same: readonly number[] | undefined;
  private readonly followed: number;
  private readonly greedy = new Map<string, number>();

  constructor(tests: readonly PlanTest<T>[], root: Float64Array, { certain = 1 - 1e-9, same, followed = leastShare }: PlanOptions) {
    this.followed = followed;
    this.tests = tests;
    this.root = root;
    this.certain = certain;
    this.same = same;
  }

  tree(mass: Float64Array, depth: number, tried: number, used: readonly PlanTest<T>[], share = 1): Tree<T> {
    const worth = depth === 0 || this.isDone(mass) ? [] : this.byWorth(mass).filter((c) => !used.includes(c.test));
    if (worth.length === 0) return { leaf: true, mass };
    const candidates = worth.slice(0, Math.max(1, tried));
    const costs = candidates.map((c) => (candidates.length === 1 ? 0 : this.costOf(c, depth)));
    const chosen = candidates[costs.indexOf(Math.min(...costs))]!;
    return {
      leaf: false,
      mass,
      test: chosen.test,
      branches: chosen.after.flatMap((o, outcome) => {
        if (o.probability * share < this.followed) return [];
        const next = this.tree(conditioned(o), depth - 1, tried, [...used, chosen.test], share * o.probability);
        return [{ outcome, probability: o.probability, next }];
      }),
    };
  }

  optimum(mass: Float64Array, most: number): { cost: number; first: readonly PlanTest<T>[] } | undefined {
    const known = new Map<string, { cost: number; first: readonly PlanTest<T>[] }>();
    const least = (now: Float64Array): { cost: number; first: readonly PlanTest<T>[] } | undefined => {
      if (this.isDone(now)) return { cost: 0, first: [] };
      const key = keyOf(now);
      const before = known.get(key);
      if (before) return before;
      if (known.size >= most) return undefined;
      const worth = this.byWorth(now);
      if (worth.length === 0) return { cost: 0, first: [] };
      let best = { cost: Number.POSITIVE_INFINITY, first: [] as PlanTest<T>[] };
      for (const { test, after } of worth) {
        let cost = test.cost;
        for (const o of after) {
          if (o.probability < leastShare) continue;
          const rest = least(conditioned(o));
          if (!rest) return undefined;
          cost += o.probability * rest.cost;
        }
        if (cost < best.cost - 1e-9) best = { cost, first: [test] };
        else if (cost <= best.cost + 1e-9) best.first.push(test);
      }
      known.set(key, best);
      return best;
    };
    return least(mass);
  }

  private isDone(mass: Float64Array): boolean {
    if (!this.same) return mass.some((p) => p >= this.certain);
    const ends = new Map<number, number>();
    for (const [s, p] of mass.entries()) ends.set(this.same[s]!, (ends.get(this.same[s]!) ?? 0) + p);
    return [...ends.values()].some((p) => p >= this.certain);
  }

  /** Tests that tell anything here, most bits for their cost first; ties in the order given. */
  private byWorth(mass: Float64Array): readonly { test: PlanTest<T>; after: readonly Branching[]; worth: number }[] {
    return this.tests
      .map((test) => {
        const after = branchingAfter(test.outcomes, this.root, mass);
        return { test, after, worth: informationBits(after, mass) };
      })
      .filter((c) => c.worth > leastBits)
      .map((c) => ({ ...c, worth: c.worth / c.test.cost }))
      .sort((a, b) => b.worth - a.worth);
  }

  private costOf({ test, after }: { test: PlanTest<T>; after: readonly Branching[] }, depth: number): number {
    return after.reduce(
      (sum, o) => (o.probability < leastShare ? sum : sum + o.probability * this.greedyCost(conditioned(o), depth - 1)),
      test.cost,
    );
  }

  private greedyCost(mass: Float64Array, depth: number): number {
    if (depth === 0 || this.isDone(mass)) return 0;
    const key = `${depth} ${keyOf(mass)}`;
    const known = this.greedy.get(key);
    if (known !== undefined) return known;
    const [best] = this.byWorth(mass);
    const cost = best ? this.costOf(best, depth) : 0;
    this.greedy.set(key, cost);
    return cost;
  }
}

const keyOf = (mass: Float64Array): string => [...mass].map((p) => p.toPrecision(7)).join();
