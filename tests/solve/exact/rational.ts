/** An exact fraction, denominator > 0, in lowest terms. */
export type Rational = { readonly over: bigint; readonly under: bigint };

export const zero: Rational = { over: 0n, under: 1n };

function lowest(over: bigint, under: bigint): Rational {
  let [a, b] = [over < 0n ? -over : over, under < 0n ? -under : under];
  while (b !== 0n) [a, b] = [b, a % b];
  const sign = under < 0n ? -1n : 1n;
  return a === 0n ? zero : { over: (sign * over) / a, under: (sign * under) / a };
}

/** The very number that a double holds: doubles are fractions over a power of two. */
export function exactly(double: number): Rational {
  let [over, under] = [double, 1n];
  while (!Number.isInteger(over)) [over, under] = [over * 2, under * 2n];
  return lowest(BigInt(over), under);
}

export const plus = (a: Rational, b: Rational) => lowest(a.over * b.under + b.over * a.under, a.under * b.under);
export const minus = (a: Rational, b: Rational) => lowest(a.over * b.under - b.over * a.under, a.under * b.under);
export const times = (a: Rational, b: Rational) => lowest(a.over * b.over, a.under * b.under);
export const through = (a: Rational, b: Rational) => lowest(a.over * b.under, a.under * b.over);

/** Nearest double but for the last bit: 30 decimal digits are kept on the way. */
export function toDouble(a: Rational): number {
  if (a.over === 0n) return 0;
  const digits = 30 + (a.under.toString().length - a.over.toString().length);
  const scale = 10n ** BigInt(Math.abs(digits));
  const whole = digits >= 0 ? (a.over * scale) / a.under : a.over / (a.under * scale);
  return Number(`${whole}e${-digits}`);
}

/**
 * Node voltages in exact arithmetic, by plain elimination: the reference that the solver is held to. It shares no
 * line with it.
 *
 * @param branches ohm finite and > 0
 * @param feeds    ampere pushed into each node; entry 0 is ignored
 * @returns volts per node against node 0; every node must have a path to it
 */
export function exactVolts(
  nodes: number,
  branches: readonly { from: number; to: number; ohm: number }[],
  feeds: readonly number[],
): Rational[] {
  const rows: Rational[][] = Array.from({ length: nodes }, (_, i) => [
    ...Array.from({ length: nodes }, () => zero),
    exactly(feeds[i] ?? 0),
  ]);
  for (const { from, to, ohm } of branches) {
    const g = through({ over: 1n, under: 1n }, exactly(ohm));
    for (const [i, j] of [
      [from, to],
      [to, from],
    ] as const) {
      rows[i]![i] = plus(rows[i]![i]!, g);
      rows[i]![j] = minus(rows[i]![j]!, g);
    }
  }
  const open = Array.from({ length: nodes - 1 }, (_, k) => k + 1);
  for (const k of open) {
    const swap = open.find((i) => i >= k && rows[i]![k]!.over !== 0n)!;
    [rows[k], rows[swap]] = [rows[swap]!, rows[k]!];
    for (const i of open) {
      if (i === k || rows[i]![k]!.over === 0n) continue;
      const factor = through(rows[i]![k]!, rows[k]![k]!);
      for (let j = k; j <= nodes; j++) rows[i]![j] = minus(rows[i]![j]!, times(factor, rows[k]![j]!));
    }
  }
  return [zero, ...open.map((k) => through(rows[k]![nodes]!, rows[k]![k]!))];
}
