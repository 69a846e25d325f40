/**
 * Steady current at which a copper wire in free air melts, A: 80·d^1.5, d in mm.
 * Source: Preece's formula (from memory): 18 AWG 83 A, 16 AWG 117 A, 14 AWG 166 A, 12 AWG 235 A.
 */
export function steadyMelting_A(area_mm2: number): number {
  const diameter_mm = Math.sqrt((4 * area_mm2) / Math.PI);
  return 80 * diameter_mm ** 1.5;
}

/**
 * Seconds to melt a copper wire without any cooling, from 20 °C: Onderdonk's formula,
 * I = A·√(log10((1083 − 20)/(234 + 20) + 1)/(33·t)), A in circular mils.
 * Source: from memory; 18 AWG 76 A in 10 s and 239 A in 1 s.
 */
export function meltingTime_s(ampere: number, area_mm2: number): number {
  const circularMils = area_mm2 / 5.067e-4;
  return (Math.log10((1083 - 20) / (234 + 20) + 1) / 33) * (circularMils / ampere) ** 2;
}
