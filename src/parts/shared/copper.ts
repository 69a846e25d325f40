/** Annealed copper at 20 °C, Ω·mm²/m. Source: NBS Handbook 100 (1966), volume resistivity (secondary copy). */
export const copper_ohm_mm2_per_m = 0.017241;

/**
 * Stranded road-vehicle wire over solid copper of the same nominal area: strand lay and drawn-down strands.
 * Source: computed, middle of the row ISO 6722 maximum over copper, 1.06 to 1.10.
 */
export const strandedShare = 1.08;

/** Resistance of annealed copper at a temperature over that at 20 °C. Source: factors of IEC 60228 (secondary copy): (234.5 + T)/254.5. */
export function copperAt(celsius: number): number {
  return (234.5 + celsius) / 254.5;
}

/**
 * Resistance of a stranded vehicle wire, Ω.
 *
 * @param length_m  > 0
 * @param area_mm2  nominal, > 0
 * @param celsius   of the copper, -40..150
 * @param stranded  1 for a solid conductor
 */
export function wireResistance(length_m: number, area_mm2: number, celsius: number, stranded = strandedShare): number {
  return ((copper_ohm_mm2_per_m * stranded * length_m) / area_mm2) * copperAt(celsius);
}
