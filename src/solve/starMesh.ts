import type { Pattern } from './eliminationPattern.ts';

/** A network with its conductances eliminated: ready to be solved for any feeds. Working space: written again by `eliminateAgain`. */
export type Eliminated = {
  readonly pattern: Pattern;
  /** Conductance of each arm when its step came, S. */
  readonly arms: Float64Array;
  /** Sum of the arms of each step, S; 0 = the last of an island tied to nothing. */
  readonly around: Float64Array;
  /** Conductance that each pair of arms leaves between its two far ends, S. */
  readonly pairs: Float64Array;
  /** Steps to be done again; all 0 between calls. */
  readonly due: Uint8Array;
};

/**
 * Eliminates every node but the reference by star-mesh steps: neighbours i and j of node k gain the conductance
 * g[k][i]·g[k][j] / Σg[k]. Only sums, products and quotients of positive numbers occur, so 1 mΩ beside 1 GΩ costs no
 * digits, and an island with no path to the reference ends in a sum of exactly zero: no tolerance is needed. Nor can
 * a path be lost to underflow: of the shares of one star, the largest is at least one over the number of its arms.
 *
 * @param siemens  per branch of the pattern, >= 0 and finite, 0 = open (not checked)
 * Cost: one multiplication a pair, one addition a pair and a branch.
 * Sources: star-mesh: A. Rosen, J. IEE 62 (1924) 916-918; elimination without subtraction: Grassmann, Taksar,
 * Heyman, Oper. Res. 33 (1985) 1107-1116 (both from memory).
 */
export function eliminate(pattern: Pattern, siemens: ArrayLike<number>): Eliminated {
  const steps = pattern.order.length;
  const [arms, pairs] = [new Float64Array(pattern.near.length), new Float64Array(pattern.pairFrom[steps]!)];
  const done = { pattern, arms, around: new Float64Array(steps), pairs, due: new Uint8Array(steps).fill(1) };
  doDueSteps(done, siemens, 0);
  return done;
}

/**
 * The elimination after some branches changed. Only the steps that see a changed branch are done again: the one that
 * takes the branch up and those it leads to. What comes out is the same to the last bit as eliminating all anew, so
 * keeping an elimination is never visible in a result. Allocates nothing.
 *
 * @param siemens  per branch, as `eliminate`
 * @param changed  the branches whose conductance is not what it was
 * Cost: a byte a node to look through, and the steps on the way of each changed branch to the reference: a few in
 * tree-like wiring.
 */
export function eliminateAgain(done: Eliminated, siemens: ArrayLike<number>, changed: ArrayLike<number>): void {
  const { due, pattern } = done;
  const { branchStep, next } = pattern;
  let first = due.length;
  for (let c = 0; c < changed.length; c++) {
    const start = branchStep[changed[c]!]!;
    if (start >= 0 && start < first) first = start;
    for (let s = start; s >= 0 && due[s] === 0; s = next[s]!) due[s] = 1;
  }
  doDueSteps(done, siemens, first);
}

function doDueSteps(done: Eliminated, siemens: ArrayLike<number>, first: number): void {
  const { arms, around, pairs, due } = done;
  const { from, ownFrom, own, gainFrom, gain, pairFrom } = done.pattern;
  for (let s = first; s < due.length; s++) {
    if (due[s] === 0) continue;
    due[s] = 0;
    const [begin, end] = [from[s]!, from[s + 1]!];
    let sum = 0;
    for (let p = begin; p < end; p++) {
      let g = 0;
      for (let b = ownFrom[p]!; b < ownFrom[p + 1]!; b++) g += siemens[own[b]!]!;
      for (let h = gainFrom[p]!; h < gainFrom[p + 1]!; h++) g += pairs[gain[h]!]!;
      arms[p] = g;
      sum += g;
    }
    around[s] = sum;
    let pair = pairFrom[s]!;
    for (let j = begin + 1; j < end; j++) {
      const share = sum === 0 ? 0 : arms[j]! / sum;
      for (let i = begin; i < j; i++) pairs[pair++] = share * arms[i]!;
    }
  }
}

/**
 * Node voltages for one set of feeds.
 *
 * @param feeds  ampere pushed into each node; used as working space and left changed. Entry 0 is ignored.
 * @param volts  receives volts per node against node 0. Islands tied to nothing are solved against their own last node.
 * Cost: two multiplications and additions an arm, one division a node.
 */
export function nodeVoltages(done: Eliminated, feeds: Float64Array, volts: Float64Array): void {
  const { order, from, near } = done.pattern;
  const { arms, around } = done;
  for (let s = 0; s < order.length; s++) {
    const feed = feeds[order[s]!]!;
    if (feed === 0 || around[s] === 0) continue;
    const perSiemens = feed / around[s]!;
    for (let p = from[s]!; p < from[s + 1]!; p++) feeds[near[p]!]! += arms[p]! * perSiemens;
  }
  volts[0] = 0;
  for (let s = order.length - 1; s >= 0; s--) {
    const k = order[s]!;
    let total = feeds[k]!;
    for (let p = from[s]!; p < from[s + 1]!; p++) total += arms[p]! * volts[near[p]!]!;
    volts[k] = around[s] === 0 ? 0 : total / around[s]!;
  }
}

/** Marks with 1 every node without a path to node 0, the others with 0. Exact: whether a sum is zero, not whether it is small. */
export function markFloating(done: Eliminated, floats: Uint8Array): void {
  const { order, from, near } = done.pattern;
  floats[0] = 0;
  for (let s = order.length - 1; s >= 0; s--) {
    let tied = 0;
    for (let p = from[s]!; p < from[s + 1]!; p++) if (done.arms[p]! > 0 && floats[near[p]!] === 0) tied = 1;
    floats[order[s]!] = 1 - tied;
  }
}
