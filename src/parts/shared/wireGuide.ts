/**
 * Guide for the steady current of one PVC wire in 30 °C air, 70 °C at the copper: mm² and A.
 * Source: DIN VDE 0298-4 as named by a trade table (secondary); 0.5 and 0.75 mm² from memory.
 */
export const steadyGuide: readonly (readonly [area_mm2: number, ampere: number])[] = [
  [0.5, 12],
  [0.75, 15],
  [1, 19],
  [1.5, 24],
  [2.5, 32],
  [4, 42],
  [6, 54],
  [10, 73],
  [16, 98],
  [25, 129],
  [35, 158],
];

export const steadyGuideSource = 'guide for one PVC wire, DIN VDE 0298-4 as named by a trade table (secondary)';

/**
 * Short current of some seconds, A/mm². A trade table of sizes gives 10 for short loads and 16 to 35 mm² for starters
 * (secondary), which draw 150 to 350 A (secondary): 15 is taken (computed from the two).
 */
const short_A_per_mm2 = 15;

/**
 * Steady guide current, A: the table row, log-log between rows and beyond the ends, times √((70 − T)/40), which gives
 * the table's own 50 °C row within 1 %.
 *
 * @param ambient °C, taken as at most 65
 */
export function steadyLimit_A(area_mm2: number, ambient: number): number {
  const next = steadyGuide.findIndex(([area]) => area >= area_mm2);
  const k = Math.max(1, next < 0 ? steadyGuide.length - 1 : next);
  const [[a0, i0], [a1, i1]] = [steadyGuide[k - 1]!, steadyGuide[k]!];
  const power = Math.log(i1 / i0) / Math.log(a1 / a0);
  return i0 * (area_mm2 / a0) ** power * Math.sqrt((70 - Math.min(ambient, 65)) / 40);
}

/** Limit for some seconds, while the starter turns, A; never under the steady one. */
export function shortLimit_A(area_mm2: number, ambient: number): number {
  return Math.max(short_A_per_mm2 * area_mm2, steadyLimit_A(area_mm2, ambient));
}
