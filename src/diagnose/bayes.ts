/** Probabilities from scores that are logarithms up to a common summand: they sum to one. */
export function posterior(scores: ArrayLike<number>): Float64Array {
  let best = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < scores.length; k++) best = Math.max(best, scores[k]!);
  const shares = new Float64Array(scores.length);
  let total = 0;
  for (let k = 0; k < scores.length; k++) {
    shares[k] = Math.exp(scores[k]! - best);
    total += shares[k]!;
  }
  for (let k = 0; k < shares.length; k++) shares[k]! /= total;
  return shares;
}

/** Entropy of a distribution, bits. */
export function entropy(shares: Iterable<number>): number {
  let bits = 0;
  for (const p of shares) if (p > 0) bits -= p * Math.log2(p);
  return bits;
}

/** One way in which a test can come out. */
export type Branching = {
  readonly probability: number;
  /** P(state and this outcome), by state; sums to `probability`. */
  readonly shares: Float64Array;
};

/**
 * Bits that a test is worth, I(state; outcome): what is known of its outcome by knowing the state. For a test without
 * error on states that each predict one outcome this is the entropy of the outcome.
 *
 * @param mass P(state)
 */
export function informationBits(outcomes: readonly Branching[], mass: ArrayLike<number>): number {
  let bits = 0;
  for (const o of outcomes)
    for (let s = 0; s < mass.length; s++) {
      const joint = o.shares[s]!;
      if (joint > 0) bits += joint * Math.log2(joint / (o.probability * mass[s]!));
    }
  return Math.max(0, bits);
}

/** P(state) after an outcome. */
export const conditioned = (outcome: Branching): Float64Array => outcome.shares.map((x) => x / outcome.probability);

/** A second test's outcomes once a first came out so: what a state says of the second does not depend on the first. */
export function branchingAfter(second: readonly Branching[], mass: ArrayLike<number>, after: ArrayLike<number>): readonly Branching[] {
  return second.map((o) => {
    const shares = new Float64Array(after.length);
    let probability = 0;
    for (let s = 0; s < after.length; s++) {
      if (after[s] === 0 || mass[s] === 0) continue;
      shares[s] = (after[s]! * o.shares[s]!) / mass[s]!;
      probability += shares[s]!;
    }
    return { probability, shares };
  });
}
