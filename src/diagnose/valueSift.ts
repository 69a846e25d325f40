import type { Case } from './outcomes.ts';

/**
 * Bits that a value read would be worth, asked thousands of times for the same cases: sorted, the values are cut where
 * the gap is wider than both tolerances, and I(suspect; piece) is summed up. The same as `cutOf` gives, without an object
 * for each case.
 *
 * Cost: cases² at worst for the sorting, near linear as most cases read the same.
 */
export class ValueSift {
  /** To be filled before `bits` is asked: what each case reads, and the half-width that an instrument leaves it. */
  readonly at: Float64Array;
  readonly width: Float64Array;
  private readonly weight: Float64Array;
  private readonly suspect: Int32Array;
  private readonly mass: Float64Array;
  private readonly order: Int32Array;
  private readonly joint: Float64Array;
  private readonly touched: Int32Array;

  /** @param mass belief per suspect */
  constructor(cases: readonly Case[], mass: Float64Array) {
    this.at = new Float64Array(cases.length);
    this.width = new Float64Array(cases.length);
    this.weight = Float64Array.from(cases, (c) => c.weight);
    this.suspect = Int32Array.from(cases, (c) => c.suspect);
    this.order = Int32Array.from(cases.keys());
    this.mass = mass;
    this.joint = new Float64Array(mass.length);
    this.touched = new Int32Array(mass.length);
  }

  bits(): number {
    this.sort();
    const { at, width, order, weight, suspect, joint, touched } = this;
    let bits = 0;
    let met = 0;
    for (let k = 0; k < order.length; k++) {
      const c = order[k]!;
      const s = suspect[c]!;
      if (joint[s] === 0) touched[met++] = s;
      joint[s]! += weight[c]!;
      const next = order[k + 1];
      if (next !== undefined && !(at[next]! - at[c]! > width[c]! + width[next]!)) continue;
      bits += this.closed(met);
      met = 0;
    }
    return Math.max(0, bits);
  }

  /** What one piece adds; empties it. */
  private closed(met: number): number {
    const { joint, touched, mass } = this;
    let whole = 0;
    for (let t = 0; t < met; t++) whole += joint[touched[t]!]!;
    let bits = 0;
    for (let t = 0; t < met; t++) {
      const s = touched[t]!;
      if (joint[s]! > 0) bits += joint[s]! * Math.log2(joint[s]! / (whole * mass[s]!));
      joint[s] = 0;
    }
    return bits;
  }

  /** By insertion: the order of the last reading is nearly that of the next. */
  private sort(): void {
    const { at, order } = this;
    for (let k = 1; k < order.length; k++) {
      const c = order[k]!;
      const v = at[c]!;
      let j = k - 1;
      // Ties in the order of the cases, so that what was read before leaves no trace.
      for (; j >= 0 && (at[order[j]!]! > v || (at[order[j]!]! === v && order[j]! > c)); j--) order[j + 1] = order[j]!;
      order[j + 1] = c;
    }
  }
}
