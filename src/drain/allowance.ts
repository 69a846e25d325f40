/**
 * Key-off current that is let pass, A. Makers' texts (secondary) allow 20 to 50 mA; 30 mA is the stricter half of them.
 * Where nothing but a regulator or a clock hangs on the battery, 10 mA (estimate). A vehicle that draws more by design,
 * such as one with a held isolator, may draw a quarter more than that.
 *
 * @param healthy_A what the healthy vehicle draws
 */
export const allowance = (healthy_A: number): number => Math.max(healthy_A > 5e-3 ? 0.03 : 0.01, 1.25 * healthy_A);
