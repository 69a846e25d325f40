import type { LawBranch } from './branchValues.ts';
import type { Network } from './network.ts';

/** How the laws stand at the end of a Newton step, against the tangents that the step was taken with. */
export type Comparison = {
  /** Largest current by which a law misses its tangent, A. */
  readonly worst: number;
  /** No law misses by more than its share of its own current, or than rounding of the voltages explains. */
  readonly met: boolean;
  /** Slope of the co-content at the end of the step, along the step: above zero when it went too far. */
  readonly climb: number;
};

/** The laws of a network with the tangent that stands for each: amperes = slope·(volts − at) + ampere. */
export class Tangents {
  private readonly laws: readonly LawBranch[];
  private readonly from: Int32Array;
  private readonly to: Int32Array;
  private readonly offset: Float64Array;
  private readonly at: Float64Array;
  private readonly ampere: Float64Array;
  private readonly slope: Float64Array;

  constructor({ pairs, branches }: Network, laws: readonly LawBranch[]) {
    this.laws = laws;
    this.from = Int32Array.from(laws, (l) => pairs[2 * l.branch]!);
    this.to = Int32Array.from(laws, (l) => pairs[2 * l.branch + 1]!);
    this.offset = Float64Array.from(laws, (l) => branches[l.branch]!.offset);
    [this.at, this.ampere, this.slope] = [new Float64Array(laws.length), new Float64Array(laws.length), new Float64Array(laws.length)];
  }

  /** Takes the laws up at these node voltages. */
  takeUp(nodes: Float64Array): void {
    for (let l = 0; l < this.laws.length; l++) {
      const volts = this.across(l, nodes);
      const { ampere, siemens } = this.laws[l]!.law(volts);
      [this.at[l], this.ampere[l], this.slope[l]] = [volts, ampere, siemens];
    }
  }

  /** Writes the tangents into the branches, and what they push into the nodes on top of `feeds`. */
  putInto(siemens: Float64Array, push: Float64Array, feeds: Float64Array): void {
    for (let l = 0; l < this.laws.length; l++) {
      const { branch } = this.laws[l]!;
      siemens[branch] = this.slope[l]!;
      push[branch] = this.ampere[l]! - this.slope[l]! * this.at[l]!;
      const flow = push[branch] + this.slope[l]! * this.offset[l]!;
      feeds[this.from[l]!]! -= flow;
      feeds[this.to[l]!]! += flow;
    }
  }

  /**
   * @param enough    share of its own current by which a law may miss its tangent
   * @param rounding_V volts that rounding may cost
   */
  compared(nodes: Float64Array, enough: number, rounding_V: number): Comparison {
    let [worst, climb, met] = [0, 0, true];
    for (let l = 0; l < this.laws.length; l++) {
      const step = this.across(l, nodes) - this.at[l]!;
      const { ampere, siemens } = this.laws[l]!.law(this.at[l]! + step);
      const miss = ampere - (this.ampere[l]! + this.slope[l]! * step);
      worst = Math.max(worst, Math.abs(miss));
      climb += miss * step;
      if (Math.abs(miss) > enough * Math.abs(ampere) && Math.abs(miss) > siemens * rounding_V) met = false;
    }
    return { worst, met, climb };
  }

  /** `climb` after a share of the step from where the laws were taken up towards these node voltages. */
  climbAfter(share: number, nodes: Float64Array): number {
    let climb = 0;
    for (let l = 0; l < this.laws.length; l++) {
      const step = this.across(l, nodes) - this.at[l]!;
      const { ampere } = this.laws[l]!.law(this.at[l]! + share * step);
      climb += (ampere - (this.ampere[l]! + this.slope[l]! * share * step)) * step;
    }
    return climb;
  }

  private across(l: number, nodes: Float64Array): number {
    return nodes[this.from[l]!]! - nodes[this.to[l]!]! + this.offset[l]!;
  }
}
