/**
 * Seeded chance as a value: the same seed gives the same draws, and the state can be kept and continued.
 * A 32-bit mix of a counter; good enough to decide whether a contact makes this time, not for cryptography.
 *
 * @returns a number in [0, 1) and the state after it
 */
export function draw(state: number): readonly [chance: number, next: number] {
  const next = (state + 0x6d2b79f5) | 0;
  let mixed = Math.imul(next ^ (next >>> 15), next | 1);
  mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
  return [((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296, next];
}
