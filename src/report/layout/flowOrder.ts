import type { Nets } from './nets.ts';

/** Nets by the height at which they would stand as voltages; ground bars last. */
export function flowOrder(
  nets: Nets,
  ends: readonly (readonly [number, number])[],
  rail: number | undefined,
  isBar: (k: number) => boolean,
): readonly number[] {
  const n = nets.nets.length;
  const height = harmonic(
    n,
    ends,
    nets.nets.map((net) => (net.index === rail ? 1 : net.bar ? 0 : undefined)),
  );
  const hops = hopsFrom(n, ends, rail);
  // Rounding must not decide: heights that differ by less than this are equal.
  const same = 1e-7;
  const rank = (k: number) => Math.round(height[k]! / same);
  return [...nets.nets.keys()].sort((a, b) => {
    if (isBar(a) !== isBar(b)) return isBar(a) ? 1 : -1;
    if (a === rail || b === rail) return a === rail ? -1 : 1;
    return rank(b) - rank(a) || hops[a]! - hops[b]! || a - b;
  });
}

function hopsFrom(n: number, ends: readonly (readonly [number, number])[], start: number | undefined): readonly number[] {
  const hops = Array.from({ length: n }, () => Number.POSITIVE_INFINITY);
  if (start === undefined) return hops.map(() => 0);
  hops[start] = 0;
  for (let moved = true; moved; ) {
    moved = false;
    for (const [a, b] of ends)
      for (const [u, v] of [
        [a, b],
        [b, a],
      ] as const)
        if (hops[u]! + 1 < hops[v]!) {
          hops[v] = hops[u]! + 1;
          moved = true;
        }
  }
  return hops.map((h) => Math.min(h, n));
}

function harmonic(n: number, ends: readonly (readonly [number, number])[], fixed: readonly (number | undefined)[]): Float64Array {
  const rows = fixed.flatMap((f, k) => (f === undefined ? [k] : []));
  const rowOf = new Int32Array(n).fill(-1);
  for (const [r, k] of rows.entries()) rowOf[k] = r;
  const m = rows.length;
  const a = Array.from({ length: m }, () => new Float64Array(m + 1));
  // A trace of conductance to ground keeps nets that hang on nothing solvable.
  for (let r = 0; r < m; r++) a[r]![r] = 1e-12;
  for (const [u, v] of ends) {
    for (const [here, there] of [
      [u, v],
      [v, u],
    ] as const) {
      const r = rowOf[here]!;
      if (r < 0) continue;
      a[r]![r]! += 1;
      if (rowOf[there]! >= 0) a[r]![rowOf[there]!]! -= 1;
      else a[r]![m]! += fixed[there] ?? 0;
    }
  }
  for (let k = 0; k < m; k++)
    for (let r = k + 1; r < m; r++) {
      const share = a[r]![k]! / a[k]![k]!;
      if (share === 0) continue;
      for (let c = k; c <= m; c++) a[r]![c]! -= share * a[k]![c]!;
    }
  const height = new Float64Array(n);
  for (const [k, f] of fixed.entries()) height[k] = f ?? 0;
  for (let r = m - 1; r >= 0; r--) {
    let sum = a[r]![m]!;
    for (let c = r + 1; c < m; c++) sum -= a[r]![c]! * height[rows[c]!]!;
    height[rows[r]!] = sum / a[r]![r]!;
  }
  return height;
}
