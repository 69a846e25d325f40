/** Share of a battery's Ah that may be used before it no longer starts. Sources: a maker's bulletin (secondary) 40 % at 25 °C; 60 % common practice, no source. */
export const usableByRule = { least: 0.4, most: 0.6 } as const;

/** Ah of a battery of which only the reserve minutes are known: minutes at 25 A, times 0.6. Source: the same maker's bulletin (secondary). */
export const ampereHoursOfReserve = (minutes: number): number => 0.6 * minutes;

/**
 * Hours to no start as reckoned in workshops: a share of the capacity, less what is missing already, over the current.
 *
 * @param charge 0..1; a parked vehicle is often at 0.9
 * @param usable share of the full capacity that may be used
 */
export function hoursByRule(capacity_Ah: number, amperes: number, charge = 1, usable: number = usableByRule.least): number {
  return (Math.max(0, usable - (1 - charge)) * capacity_Ah) / Math.max(1e-9, amperes);
}
