/** Names in groups; the first of a group stands for it. */
export class Groups {
  private readonly up = new Map<string, string>();
  root(name: string): string {
    let at = name;
    for (let next = this.up.get(at); next !== undefined; next = this.up.get(at)) at = next;
    return at;
  }
  /** The group of `a` takes in that of `b`. */
  join(a: string, b: string): void {
    const [first, second] = [this.root(a), this.root(b)];
    if (first !== second) this.up.set(second, first);
  }
}
