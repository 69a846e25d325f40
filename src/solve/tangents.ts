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

/** A straight line for each law: amperes = slope·(volts − at) + ampere. */
export class Lines {
  readonly at: Float64Array;
  readonly ampere: Float64Array;
  readonly slope: Float64Array;
  constructor(many: number) {
    this.at = new Float64Array(many);
    this.ampere = new Float64Array(many);
    this.slope = new Float64Array(many);
  }
}

/** The laws of a network with the straight line that stands for each. Asking a law is what costs, so what the end of a step tells is kept. */
export class Tangents {
  private readonly laws: readonly LawBranch[];
  private readonly pairs: Int32Array;
  private readonly offsets: Float64Array;
  private now: Lines;
  private end: Lines;

  /** @param lines  two with room for every law; written over */
  constructor({ pairs, offsets }: Network, laws: readonly LawBranch[], lines: readonly [Lines, Lines]) {
    this.laws = laws;
    this.pairs = pairs;
    this.offsets = offsets;
    [this.now, this.end] = lines;
  }

  /**
   * Begins where a supply would leave the laws. One that drives a current by itself (a battery) is taken up where it
   * would stand open. The others get a line from the origin to their current at the highest voltage about, either way
   * round, whichever is less: right for a lamp that is on, harmless for one that is off, and a diode begins as blocking.
   *
   * @param highest  largest voltage of any source that is no law, V
   */
  begin(highest: number): void {
    const { at, ampere, slope } = this.now;
    let volts = highest;
    for (let l = 0; l < this.laws.length; l++) {
      const idle = this.laws[l]!.law(0);
      ampere[l] = 0;
      at[l] = idle.ampere === 0 ? 0 : -idle.ampere / idle.siemens;
      slope[l] = idle.siemens;
      volts = Math.max(volts, Math.abs(at[l]!));
    }
    if (volts === 0) return;
    for (let l = 0; l < this.laws.length; l++) {
      const { law } = this.laws[l]!;
      if (at[l] === 0) slope[l] = Math.min(law(volts).ampere, -law(-volts).ampere) / volts;
      else {
        const open = law(at[l]!);
        ampere[l] = open.ampere;
        slope[l] = open.siemens;
      }
    }
  }

  /** Takes the tangents at these node voltages. */
  takeUp(nodes: Float64Array): void {
    this.tangentsAt(nodes, this.now);
  }

  /** Takes the tangents where `compared` was asked last. */
  takeUpEnd(): void {
    const { now, end } = this;
    this.now = end;
    this.end = now;
  }

  /** Writes the lines into the branches, and what they push into the nodes on top of `feeds`. */
  putInto(siemens: Float64Array, push: Float64Array, feeds: Float64Array): void {
    const { at, ampere, slope } = this.now;
    const { pairs, offsets } = this;
    for (let l = 0; l < this.laws.length; l++) {
      const k = this.laws[l]!.branch;
      const pushed = ampere[l]! - slope[l]! * at[l]!;
      siemens[k] = slope[l]!;
      push[k] = pushed;
      const flow = pushed + slope[l]! * offsets[k]!;
      feeds[pairs[2 * k]!]! -= flow;
      feeds[pairs[2 * k + 1]!]! += flow;
    }
  }

  /**
   * @param enough    share of its own current by which a law may miss its line
   * @param rounding_V volts that rounding may cost
   */
  compared(nodes: Float64Array, enough: number, rounding_V: number): Comparison {
    const { now, end } = this;
    this.tangentsAt(nodes, end);
    let worst = 0;
    let climb = 0;
    let met = true;
    for (let l = 0; l < this.laws.length; l++) {
      const step = end.at[l]! - now.at[l]!;
      const miss = end.ampere[l]! - (now.ampere[l]! + now.slope[l]! * step);
      const size = Math.abs(miss);
      if (size > worst) worst = size;
      if (size > enough * Math.abs(end.ampere[l]!) && size > end.slope[l]! * rounding_V) met = false;
      climb += miss * step;
    }
    return { worst, met, climb };
  }

  /** `climb` after a share of the step that was compared last. */
  climbAfter(share: number): number {
    const { now, end } = this;
    let climb = 0;
    for (let l = 0; l < this.laws.length; l++) {
      const step = end.at[l]! - now.at[l]!;
      const { ampere } = this.laws[l]!.law(now.at[l]! + share * step);
      climb += (ampere - (now.ampere[l]! + now.slope[l]! * share * step)) * step;
    }
    return climb;
  }

  private tangentsAt(nodes: Float64Array, lines: Lines): void {
    const { pairs, offsets } = this;
    for (let l = 0; l < this.laws.length; l++) {
      const { branch: k, law } = this.laws[l]!;
      const volts = nodes[pairs[2 * k]!]! - nodes[pairs[2 * k + 1]!]! + offsets[k]!;
      const { ampere, siemens } = law(volts);
      lines.at[l] = volts;
      lines.ampere[l] = ampere;
      lines.slope[l] = siemens;
    }
  }
}
