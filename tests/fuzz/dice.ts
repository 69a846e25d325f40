/** Random numbers that belong to one input: the same seed and number always give the same input, whatever was tried before it. */
export type Dice = {
  /** A whole number from 0 up to, not including, `below`; 0 when there is nothing to choose from. */
  readonly roll: (below: number) => number;
  readonly pick: <T>(list: readonly T[]) => T;
  /** True once in so many. */
  readonly once: (inSoMany: number) => boolean;
};

/** Source: splitmix32 over a mix of seed and number, public domain (from memory). */
export function diceOf(seed: number, number: number): Dice {
  let a = (Math.imul(seed + 1, 0x9e3779b9) ^ Math.imul(number + 1, 0x85ebca6b)) >>> 0;
  const roll = (below: number): number => {
    a = (a + 0x9e3779b9) >>> 0;
    let t = a ^ (a >>> 16);
    t = Math.imul(t, 0x21f0aaad);
    t = t ^ (t >>> 15);
    t = Math.imul(t, 0x735a2d97);
    return below <= 0 ? 0 : ((t ^ (t >>> 15)) >>> 0) % below;
  };
  return { roll, pick: (list) => list[roll(list.length)]!, once: (inSoMany) => roll(inSoMany) === 0 };
}
