/** Names that are joined; union-find with halving. */
export class Sets {
  private readonly up = new Map<string, string>();
  root(name: string): string {
    let at = name;
    for (let to = this.up.get(at); to !== undefined; to = this.up.get(at)) {
      const over = this.up.get(to);
      if (over !== undefined) this.up.set(at, over);
      at = to;
    }
    return at;
  }
  /** False when they were joined before. */
  join(a: string, b: string): boolean {
    const [ra, rb] = [this.root(a), this.root(b)];
    if (ra === rb) return false;
    this.up.set(ra, rb);
    return true;
  }
}
