/** A loop of exact sources whose voltages do not agree has no solution; the reader reports it, so this is a bug when it gets here. */
export class SourceLoop extends Error {}

/** Terminals joined with a known voltage between them: union-find with potentials. Near constant time a question. */
export class Joined {
  private readonly up = new Map<string, { to: string; volt: number }>();

  has(name: string): boolean {
    return this.up.has(name);
  }

  /** Representative, and volts of `name` above it. */
  root(name: string): { name: string; volt: number } {
    let at = name;
    let volt = 0;
    for (let link = this.up.get(at); link !== undefined && link.to !== at; link = this.up.get(at)) {
      volt += link.volt;
      at = link.to;
    }
    if (at !== name) this.up.set(name, { to: at, volt });
    return { name: at, volt };
  }

  /** Says that `a` is `volt` above `b`. */
  join(a: string, b: string, volt: number): void {
    for (const t of [a, b]) if (!this.up.has(t)) this.up.set(t, { to: t, volt: 0 });
    const [ra, rb] = [this.root(a), this.root(b)];
    if (ra.name !== rb.name) this.up.set(ra.name, { to: rb.name, volt: volt - ra.volt + rb.volt });
    else if (Math.abs(ra.volt - rb.volt - volt) > 1e-12) throw new SourceLoop(`${a} and ${b} are joined twice with different voltages`);
  }
}
