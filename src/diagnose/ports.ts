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

export type PortAnswer = {
  /** Volts across each port now. */
  readonly volts: Float64Array;
  /** Current that each port takes beyond what its old line would take at these volts, A. */
  readonly amperes: Float64Array;
};

/** Newton steps before the ports are given up and the whole solver is asked. */
const mostSteps = 60;

/**
 * Solves a network for a handful of changed branches: v = v0 − Z·Δi(v), Z the transfer resistances among the ports.
 * Laws begin on the line from the origin through their old current, which is right for a lamp that goes dark, and are
 * then followed by their tangents.
 *
 * @param ohm  volts at node b for one ampere into node a
 * @returns undefined when it does not settle, or when a port's island is tied to nothing but rounding
 * Cost: ports³ a step; ports are one to a dozen.
 */
export function solvePorts(ports: readonly Port[], ohm: (a: number, b: number) => number): PortAnswer | undefined {
  const n = ports.length;
  const z = new Float64Array(n * n);
  for (let j = 0; j < n; j++)
    for (let m = 0; m < n; m++) {
      const [p, q] = [ports[j]!, ports[m]!];
      z[j * n + m] = ohm(q.from, p.from) - ohm(q.from, p.to) - ohm(q.to, p.from) + ohm(q.to, p.to);
    }
  const slope = new Float64Array(n);
  const push = new Float64Array(n);
  for (const [j, p] of ports.entries()) [slope[j], push[j]] = p.law ? firstLine(p.law, p.v0) : [p.g1, p.p1];
  const volts = new Float64Array(n);
  const amperes = new Float64Array(n);
  const matrix = new Float64Array(n * n);
  const touches = Float64Array.from(ports, (p) => p.v0);
  let [reach, before] = [1, Number.POSITIVE_INFINITY];
  for (let step = 0; step < mostSteps; step++) {
    for (let j = 0; j < n; j++) {
      volts[j] = ports[j]!.v0;
      for (let m = 0; m < n; m++) {
        const { g0, p0 } = ports[m]!;
        matrix[j * n + m] = (j === m ? 1 : 0) + z[j * n + m]! * (slope[m]! - g0);
        volts[j]! -= z[j * n + m]! * (push[m]! - p0);
      }
    }
    if (!solveDense(matrix, volts, n)) return undefined;
    let met = true;
    let missed = 0;
    for (let j = 0; j < n; j++) {
      const { law, g0, p0 } = ports[j]!;
      const v = volts[j]!;
      amperes[j] = (slope[j]! - g0) * v + push[j]! - p0;
      if (!law) continue;
      const { ampere } = law(v);
      if (!Number.isFinite(ampere)) return undefined;
      const miss = Math.abs(ampere - slope[j]! * v - push[j]!);
      if (miss > 1e-8 + 1e-7 * Math.abs(ampere)) met = false;
      missed += miss * Math.abs(v - touches[j]!);
    }
    if (met) return { volts, amperes };
    // A step that ends further off than the one before went over a bend: the next tangents are taken half-way.
    reach = missed > before ? Math.max(0.05, reach / 2) : Math.min(1, 1.5 * reach);
    before = missed;
    for (let j = 0; j < n; j++) {
      const { law } = ports[j]!;
      if (!law) continue;
      touches[j]! += reach * (volts[j]! - touches[j]!);
      const { ampere, siemens } = law(touches[j]!);
      slope[j] = siemens;
      push[j] = ampere - siemens * touches[j]!;
    }
  }
  return undefined;
}

function firstLine(law: Law, v0: number): [slope: number, push: number] {
  const { ampere, siemens } = law(v0);
  if (Math.abs(v0) > 1e-3 && ampere * v0 > 0) return [ampere / v0, 0];
  return [siemens, ampere - siemens * v0];
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
      for (let k = c; k < n; k++) [a[c * n + k], a[best * n + k]] = [a[best * n + k]!, a[c * n + k]!];
      [right[c], right[best]] = [right[best]!, right[c]!];
    }
    for (let r = c + 1; r < n; r++) {
      const share = a[r * n + c]! / pivot;
      if (share === 0) continue;
      for (let k = c; k < n; k++) a[r * n + k]! -= share * a[c * n + k]!;
      right[r]! -= share * right[c]!;
    }
  }
  for (let c = n - 1; c >= 0; c--) {
    for (let k = c + 1; k < n; k++) right[c]! -= a[c * n + k]! * right[k]!;
    right[c]! /= a[c * n + c]!;
  }
  return true;
}
