import type { Pattern } from './eliminationPattern.ts';
import { addNeighbours, type Eliminated, eliminate, eliminateAgain } from './starMesh.ts';

/**
 * One linear network solved again and again, with a few conductances changed in between: what a screening of faults
 * or a search over one resistance asks. Neither the pattern nor what a change does not reach is worked out again, and
 * unlike an update of low rank it loses no digits, not even when the branch that changes carries everything.
 *
 * The answer is the same to the last bit as eliminating and solving anew.
 * Cost of a solve: two passes over the steps on the way of each changed branch to the reference, and one
 * multiplication and addition for each arm of the network.
 */
export class RepeatedSolve {
  private readonly pattern: Pattern;
  private readonly siemens: Float64Array;
  private readonly feeds: Float64Array;
  private readonly done: Eliminated;
  /** Volts that a node would have with all its neighbours at 0 V; what each arm takes on of the current that arrives there. */
  private readonly alone: Float64Array;
  private readonly taken: Float64Array;
  private readonly volts: Float64Array;
  private readonly changed: number[] = [];

  /**
   * @param siemens  per branch of the pattern, >= 0, 0 = open
   * @param feeds    ampere pushed into each node; entry 0 is ignored
   */
  constructor(pattern: Pattern, siemens: ArrayLike<number>, feeds: ArrayLike<number>) {
    this.pattern = pattern;
    this.siemens = Float64Array.from(siemens);
    this.feeds = Float64Array.from(feeds);
    this.done = eliminate(pattern, this.siemens);
    this.alone = new Float64Array(pattern.nodes);
    this.taken = new Float64Array(pattern.near.length);
    this.volts = new Float64Array(pattern.nodes);
    this.carryOn();
  }

  /** Gives a branch another conductance, S; felt by the next `solve`. */
  change(branch: number, siemens: number): void {
    if (this.siemens[branch] === siemens) return;
    this.siemens[branch] = siemens;
    this.changed.push(branch);
  }

  /** Volts per node against node 0, in an array that the next call writes over. */
  solve(): Float64Array {
    if (this.changed.length > 0) {
      eliminateAgain(this.done, this.siemens, this.changed);
      this.changed.length = 0;
      this.carryOn();
    }
    this.volts.set(this.alone);
    addNeighbours(this.done, this.volts);
    return this.volts;
  }

  /** Carries the feeds on through the steps that were done last. */
  private carryOn(): void {
    const { order, from, arriveFrom, arrive } = this.pattern;
    const { steps, first, shares, ohms } = this.done;
    const { alone, taken, feeds } = this;
    for (let t = first; t < steps.length; t++) {
      const s = steps[t]!;
      const node = order[s]!;
      let sum = feeds[node]!;
      for (let a = arriveFrom[s]!; a < arriveFrom[s + 1]!; a++) sum += taken[arrive[a]!]!;
      alone[node] = sum * ohms[node]!;
      for (let p = from[s]!; p < from[s + 1]!; p++) taken[p] = shares[p]! * sum;
    }
  }
}
