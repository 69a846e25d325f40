import type { Pattern } from './eliminationPattern.ts';

/** A network with its conductances eliminated: ready to be solved for any feeds. Working space: written again by `eliminateAgain`. */
export type Eliminated = {
  readonly pattern: Pattern;
  /** Share of each arm in the conductance around its step's node; they add up to 1, or are all 0 in the last node of an island tied to nothing. */
  readonly shares: Float64Array;
  /** One over the conductance around each node, Ω; 0 for the reference and the last of an island. */
  readonly ohms: Float64Array;
  /** Of every branch, then what each pair of arms leaves between its two far ends, S. */
  readonly siemens: Float64Array;
  /** The steps that were done last, each after those that it depends on: `steps[first] ..` to the end. */
  readonly steps: Int32Array;
  first: number;
  /** Marks and a list for collecting steps; all marks are 0 between calls. */
  readonly due: Uint8Array;
  readonly way: Int32Array;
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
  const many = pattern.order.length;
  const done: Eliminated = {
    pattern,
    shares: new Float64Array(pattern.near.length),
    ohms: new Float64Array(pattern.nodes),
    siemens: new Float64Array(pattern.pairFrom[many]!),
    steps: Int32Array.from({ length: many }, (_, s) => s),
    first: 0,
    due: new Uint8Array(many),
    way: new Int32Array(many),
  };
  done.siemens.set(siemens);
  doSteps(done);
  return done;
}

/**
 * The elimination after some branches changed. Only the steps that see a changed branch are done again: the one that
 * takes the branch up and those it leads to. What comes out is the same to the last bit as eliminating all anew, so
 * keeping an elimination is never visible in a result. Allocates nothing.
 *
 * @param siemens  per branch, as `eliminate`
 * @param changed  the branches whose conductance is not what it was
 * Cost: the steps on the way of each changed branch to the reference, a few in tree-like wiring, each once.
 */
export function eliminateAgain(done: Eliminated, siemens: ArrayLike<number>, changed: ArrayLike<number>): void {
  const { due, way, steps, pattern } = done;
  const { branchStep, next } = pattern;
  // Each way is collected as far as the first step that an earlier way has, and put in front of it: there it is done in time.
  let front = steps.length;
  for (let c = 0; c < changed.length; c++) {
    const branch = changed[c]!;
    done.siemens[branch] = siemens[branch]!;
    let long = 0;
    for (let s = branchStep[branch]!; s >= 0 && due[s] === 0; s = next[s]!) {
      due[s] = 1;
      way[long++] = s;
    }
    front -= long;
    for (let i = 0; i < long; i++) steps[front + i] = way[i]!;
  }
  done.first = front;
  for (let i = front; i < steps.length; i++) due[steps[i]!] = 0;
  doSteps(done);
}

function doSteps(done: Eliminated): void {
  const { shares, ohms, siemens, steps } = done;
  const { order, from, madeFrom, made, pairFrom } = done.pattern;
  for (let t = done.first; t < steps.length; t++) {
    const s = steps[t]!;
    const begin = from[s]!;
    const end = from[s + 1]!;
    let sum = 0;
    for (let p = begin; p < end; p++) {
      let g = 0;
      for (let h = madeFrom[p]!; h < madeFrom[p + 1]!; h++) g += siemens[made[h]!]!;
      shares[p] = g; // the conductance here; its share once the sum is known
      sum += g;
    }
    const ohm = sum === 0 ? 0 : 1 / sum;
    ohms[order[s]!] = ohm;
    let pair = pairFrom[s]!;
    for (let j = begin; j < end; j++) {
      const g = shares[j]!;
      for (let i = begin; i < j; i++) siemens[pair++] = shares[i]! * g;
      shares[j] = g * ohm;
    }
  }
}

/**
 * Node voltages for one set of feeds.
 *
 * @param feeds  ampere pushed into each node; used as working space and left changed. Entry 0 is ignored.
 * @param volts  receives volts per node against node 0. Islands tied to nothing are solved against their own last node.
 * Cost: two multiplications and additions an arm.
 */
export function nodeVoltages(done: Eliminated, feeds: Float64Array, volts: Float64Array): void {
  const { near, owner } = done.pattern;
  const { shares, ohms } = done;
  for (let q = 0; q < owner.length; q++) {
    const feed = feeds[owner[q]!]!;
    feeds[near[2 * q]!]! += shares[2 * q]! * feed;
    feeds[near[2 * q + 1]!]! += shares[2 * q + 1]! * feed;
  }
  for (let n = 0; n < volts.length; n++) volts[n] = feeds[n]! * ohms[n]!;
  addNeighbours(done, volts);
}

/** Adds to every node its neighbours' volts by their shares; a node's neighbours are those of later steps. */
export function addNeighbours({ pattern, shares }: Eliminated, volts: Float64Array): void {
  const { near, owner } = pattern;
  for (let q = owner.length - 1; q >= 0; q--)
    volts[owner[q]!]! += shares[2 * q]! * volts[near[2 * q]!]! + shares[2 * q + 1]! * volts[near[2 * q + 1]!]!;
}

/** Marks with 1 every node without a path to node 0, the others with 0. Exact: whether a share is zero, not whether it is small. */
export function markFloating(done: Eliminated, floats: Uint8Array): void {
  const { order, from, near } = done.pattern;
  floats[0] = 0;
  for (let s = order.length - 1; s >= 0; s--) {
    let tied = 0;
    for (let p = from[s]!; p < from[s + 1]!; p++) if (done.shares[p]! > 0 && floats[near[p]!] === 0) tied = 1;
    floats[order[s]!] = 1 - tied;
  }
}
