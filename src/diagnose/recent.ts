/**
 * Keeps what was asked for last. In two halves: when the young half is full it becomes the old one, and what is asked
 * for there is young again. So what is used stays, and nothing has to be put in order.
 */
export class Recent<V> {
  private young = new Map<number, V>();
  private old: ReadonlyMap<number, V> = new Map();
  private readonly half: number;

  /** @param most never more are kept than these, and of those asked for last at least half as many */
  constructor(most: number) {
    this.half = Math.max(1, Math.floor(most / 2));
  }

  get(key: number): V | undefined {
    const young = this.young.get(key);
    if (young !== undefined) return young;
    const old = this.old.get(key);
    if (old !== undefined) this.set(key, old);
    return old;
  }

  set(key: number, value: V): void {
    if (this.young.size >= this.half) {
      this.old = this.young;
      this.young = new Map();
    }
    this.young.set(key, value);
  }
}
