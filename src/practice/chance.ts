import { draw } from '../play/random.ts';

/** Seeded draws in a row; the same seed gives the same row. Kept inside one call, never in a state. */
export class Chance {
  private state: number;
  constructor(seed: number) {
    this.state = seed | 0;
  }
  /** In [0, 1). */
  next(): number {
    const [drawn, state] = draw(this.state);
    this.state = state;
    return drawn;
  }
  /** One of a list that is not empty. */
  oneOf<T>(list: readonly T[]): T {
    return list[Math.floor(this.next() * list.length)]!;
  }
  /** The list in another order. */
  shuffled<T>(list: readonly T[]): readonly T[] {
    const order = [...list];
    for (let k = order.length - 1; k > 0; k--) {
      const other = Math.floor(this.next() * (k + 1));
      [order[k], order[other]] = [order[other]!, order[k]!];
    }
    return order;
  }
}

/** One seed from several numbers and words, so that neighbours are not alike. */
export function mixedSeed(...from: readonly (number | string)[]): number {
  let hash = 0x811c9dc5;
  for (const ch of from.join(' ')) hash = Math.imul(hash ^ ch.codePointAt(0)!, 0x01000193);
  return hash | 0;
}
