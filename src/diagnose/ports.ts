import type { Law } from '../circuit/element.ts';

/** A branch of a factored network that gets another law: amperes = g0·v + p0 before, g1·v + p1 or `law(v)` now. */
export type Port = {
  /** Index of the branch; -1 for a new one, which carried nothing before. */
  readonly branch: number;
  /** Its place among the branches of the changed network; -1 where that has none. */
  readonly index: number;
  readonly from: number;
  readonly to: number;
  /** Volts of its first end above its node, minus the same of its second. */
  readonly offset: number;
  /** Volts across it before. */
  readonly v0: number;
  readonly g0: number;
  readonly p0: number;
  readonly g1: number;
  readonly p1: number;
  readonly law: Law | undefined;
};

/** Newton steps before the ports are given up and the whole solver is asked. */
const mostSteps = 60;
/** What a law may miss of its tangent when a port is done: this current, or this share of its own, A. */
const enough_A = 1e-8;
const enough = 1e-7;

/**
 * Solves a network for a handful of changed branches: v = v0 − Z·Δi(v), Z the transfer resistances among the ports.
 * Laws begin on the line from the origin through their old current, which is right for a lamp that goes dark, and are
 * then followed by their tangents.
 *
 * Ports can be added between two solves; Z is only added to. One set serves for vehicle after vehicle, so that nothing
 * is allocated on the way.
 * Cost: ports³ a step; ports are one to a dozen.
 */
export class Ports {
  readonly list: Port[] = [];
  /** Current that each port takes beyond what its old line would take at the new volts, A. */
  amperes = new Float64Array(0);
  private readonly column: (node: number) => Float64Array;
  /** Columns of each port's two nodes: volts everywhere for one ampere into them. */
  private readonly up: Float64Array[] = [];
  private readonly down: Float64Array[] = [];
  private room = 0;
  private filled = 0;
  /** Ports whose laws go on from where they were left. */
  private settled = 0;
  private z = new Float64Array(0);
  private matrix = new Float64Array(0);
  private volts = new Float64Array(0);
  private slope = new Float64Array(0);
  private push = new Float64Array(0);
  private touches = new Float64Array(0);

  /** @param column volts of every node for one ampere into a node */
  constructor(column: (node: number) => Float64Array) {
    this.column = column;
  }

  /** Begins anew, with these ports. */
  begin(ports: readonly Port[]): void {
    this.list.length = 0;
    this.filled = 0;
    this.settled = 0;
    for (const p of ports) this.list.push(p);
  }

  /** @returns false when it does not settle, or when a port's island is tied to nothing but rounding */
  solve(): boolean {
    this.fill();
    const { list, room, z, matrix, volts, amperes, slope, push, touches } = this;
    const n = list.length;
    for (let j = this.settled; j < n; j++) {
      const p = list[j]!;
      touches[j] = p.v0;
      if (p.law) this.beginOnLine(j, p.law, p.v0);
      else {
        slope[j] = p.g1;
        push[j] = p.p1;
      }
    }
    let [reach, before] = [1, Number.POSITIVE_INFINITY];
    for (let step = 0; step < mostSteps; step++) {
      for (let j = 0; j < n; j++) {
        let v = list[j]!.v0;
        for (let m = 0; m < n; m++) {
          const p = list[m]!;
          const ohm = z[j * room + m]!;
          matrix[j * n + m] = ohm * (slope[m]! - p.g0);
          v -= ohm * (push[m]! - p.p0);
        }
        matrix[j * n + j]! += 1;
        volts[j] = v;
      }
      if (!solveDense(matrix, volts, n)) return false;
      let met = true;
      let missed = 0;
      for (let j = 0; j < n; j++) {
        const { law, g0, p0 } = list[j]!;
        const v = volts[j]!;
        amperes[j] = (slope[j]! - g0) * v + push[j]! - p0;
        if (!law) continue;
        const { ampere } = law(v);
        if (!Number.isFinite(ampere)) return false;
        const miss = Math.abs(ampere - slope[j]! * v - push[j]!);
        if (miss > enough_A + enough * Math.abs(ampere)) met = false;
        missed += miss * Math.abs(v - touches[j]!);
      }
      if (met) {
        this.settled = n;
        return true;
      }
      // A step that ends further off than the one before went over a bend: the next tangents are taken half-way.
      reach = missed > before ? Math.max(0.05, reach / 2) : Math.min(1, 1.5 * reach);
      before = missed;
      for (let j = 0; j < n; j++) {
        const { law } = list[j]!;
        if (!law) continue;
        const touch = touches[j]! + reach * (volts[j]! - touches[j]!);
        touches[j] = touch;
        const { ampere, siemens } = law(touch);
        slope[j] = siemens;
        push[j] = ampere - siemens * touch;
      }
    }
    return false;
  }

  /** How far the ports that were solved move what is between two nodes, V. */
  moves(from: number, to: number): number {
    let volt = 0;
    for (let j = 0; j < this.settled; j++) {
      const [up, down] = [this.up[j]!, this.down[j]!];
      volt -= (up[from]! - down[from]! - up[to]! + down[to]!) * this.amperes[j]!;
    }
    return volt;
  }

  /** Takes what the first ports changed off the volts of every node. */
  takeOff(volts: Float64Array, ports: number): void {
    for (let j = 0; j < ports; j++) {
      const more = this.amperes[j]!;
      if (more === 0) continue;
      const [up, down] = [this.up[j]!, this.down[j]!];
      for (let n = 1; n < volts.length; n++) volts[n]! -= (up[n]! - down[n]!) * more;
    }
  }

  private beginOnLine(j: number, law: Law, v0: number): void {
    const { ampere, siemens } = law(v0);
    const fromOrigin = Math.abs(v0) > 1e-3 && ampere * v0 > 0;
    this.slope[j] = fromOrigin ? ampere / v0 : siemens;
    this.push[j] = fromOrigin ? 0 : ampere - siemens * v0;
  }

  /** Transfer resistances of the ports that are new since. */
  private fill(): void {
    const { list, up, down } = this;
    const n = list.length;
    if (n > this.room) this.widen(n);
    const { room, z } = this;
    for (let j = this.filled; j < n; j++) {
      up[j] = this.column(list[j]!.from);
      down[j] = this.column(list[j]!.to);
    }
    for (let m = 0; m < n; m++) {
      const [u, d] = [up[m]!, down[m]!];
      for (let j = m < this.filled ? this.filled : 0; j < n; j++) {
        const { from, to } = list[j]!;
        z[j * room + m] = u[from]! - u[to]! - d[from]! + d[to]!;
      }
    }
    this.filled = n;
  }

  private widen(n: number): void {
    this.room = 2 * n;
    this.filled = 0;
    const { room } = this;
    this.z = new Float64Array(room * room);
    this.matrix = new Float64Array(room * room);
    this.amperes = new Float64Array(room);
    this.volts = new Float64Array(room);
    this.slope = new Float64Array(room);
    this.push = new Float64Array(room);
    this.touches = new Float64Array(room);
    this.settled = 0;
  }
}

/** Pivots smaller than this are rounding: 1 − Z·g of a branch that alone ties an island to the rest. */
const leastPivot = 1e-13;

/** Gaussian elimination with row exchange, in place; the answer takes the place of `right`. */
function solveDense(a: Float64Array, right: Float64Array, n: number): boolean {
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(a[r * n + c]!) > Math.abs(a[best * n + c]!)) best = r;
    const pivot = a[best * n + c]!;
    if (!(Math.abs(pivot) > leastPivot)) return false;
    if (best !== c) {
      for (let k = c; k < n; k++) {
        const kept = a[c * n + k]!;
        a[c * n + k] = a[best * n + k]!;
        a[best * n + k] = kept;
      }
      const kept = right[c]!;
      right[c] = right[best]!;
      right[best] = kept;
    }
    for (let r = c + 1; r < n; r++) {
      const share = a[r * n + c]! / pivot;
      if (share === 0) continue;
      for (let k = c + 1; k < n; k++) a[r * n + k]! -= share * a[c * n + k]!;
      right[r]! -= share * right[c]!;
    }
  }
  for (let c = n - 1; c >= 0; c--) {
    for (let k = c + 1; k < n; k++) right[c]! -= a[c * n + k]! * right[k]!;
    right[c]! /= a[c * n + c]!;
  }
  return true;
}
