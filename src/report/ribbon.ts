import { interpolateCividis } from 'd3-scale-chromatic';

/**
 * Colour of a potential: cividis, 0 = ground, 1 = the supply's voltage in the scene. Clamped.
 * Source: Nuñez, Anderton, Renslow, PLoS ONE 13(7) e0199239 (2018), as in d3-scale-chromatic.
 */
export function ramp(share: number): string {
  return interpolateCividis(Math.min(1, Math.max(0, share)));
}

/**
 * Width of a ribbon's core in px: 2 when nothing flows, else 2.5 at `least` and 1.5 more for each factor of ten, up to 9.
 *
 * @param amperes  any sign
 * @param least    current of the smallest step: 0.01 A, in drain scenes 10 µA
 */
export function ribbonWidth(amperes: number, least = 0.01): number {
  const size = Math.abs(amperes);
  if (size === 0) return 2;
  return Math.min(9, Math.max(2.5, 2.5 + 1.5 * Math.log10(size / least)));
}

/** Chevrons stand from five times the smallest step on: 50 mA, in drain scenes 50 µA. */
export const showsChevrons = (amperes: number, least = 0.01): boolean => Math.abs(amperes) >= 5 * least;

/** Points of standing chevrons on a straight run: one every 44 px, centred; none on runs up to 26 px. Distances from its start. */
export function chevronPlaces(length: number): readonly number[] {
  if (length <= 26) return [];
  const count = Math.max(1, Math.round(length / 44));
  const step = Math.min(44, length / count);
  const first = (length - step * (count - 1)) / 2;
  return Array.from({ length: count }, (_, k) => first + k * step);
}
