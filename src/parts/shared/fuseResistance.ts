import type { FuseForm } from './fuseCurve.ts';

type Table = readonly (readonly [ampere: number, milliohm: number])[];

/** Cold resistance, typical, mΩ by rating in A; part ±10 to 15 %. Sources: maker's data sheets (secondary) for blade 10, 25, 40 A, mini 7.5, 15 A, maxi; the others from memory. */
const blade: Table = [
  [1, 123],
  [2, 53.5],
  [3, 31.1],
  [4, 22.8],
  [5, 17.9],
  [7.5, 10.9],
  [10, 7.7],
  [15, 4.8],
  [20, 3.38],
  [25, 2.52],
  [30, 1.97],
  [35, 1.61],
  [40, 1.44],
];
const mini: Table = [
  [5, 17.5],
  [7.5, 10.85],
  [10, 7.4],
  [15, 4.58],
  [20, 3.2],
  [25, 2.4],
  [30, 1.9],
];
const maxi: Table = [
  [30, 1.9],
  [35, 1.7],
  [40, 1.4],
];
/** Ceramic and glass fuses: the blade table, for want of a better one (estimate). */
const tables: Readonly<Record<FuseForm, Table>> = { blade, mini, maxi, ceramic: blade, glass: blade };

/**
 * Cold resistance of a fuse, Ω. Between ratings the product of resistance and rating is taken on a straight line
 * over the logarithm of the rating, since it falls smoothly; beyond the table it stays.
 *
 * @param rating_A > 0
 */
export function fuseResistance(rating_A: number, form: FuseForm): number {
  const table = tables[form];
  const [first, last] = [table[0]!, table.at(-1)!];
  if (rating_A <= first[0]) return (first[0] * first[1]) / rating_A / 1000;
  if (rating_A >= last[0]) return (last[0] * last[1]) / rating_A / 1000;
  const k = table.findIndex(([a]) => a >= rating_A);
  const [[a0, r0], [a1, r1]] = [table[k - 1]!, table[k]!];
  const part = Math.log(rating_A / a0) / Math.log(a1 / a0);
  return (a0 * r0 + (a1 * r1 - a0 * r0) * part) / rating_A / 1000;
}
