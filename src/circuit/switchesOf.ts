import { type Circuit, GROUND } from './circuit.ts';
import type { Part } from './part.ts';

/** A setting of one switch. */
export type Setting = { readonly part: string; readonly setting: string };

/** What a hand phrase may mean: the settings to make together, or several switches of which one has to be named. */
export type Meant = { readonly all: readonly Setting[] } | { readonly oneOf: readonly Setting[] };

type Ends = readonly [string, string];
type Edge = { readonly part: Part; readonly element: string; readonly a: string; readonly b: string };
/** Switches held for a trial: at a setting, or taken out. */
type Held = ReadonlyMap<string, string | null>;

/** A joint in the sense of this search: what a wire, fuse or connector has; a ballast or a coil has more. */
const joint_ohm = 0.1;
/** A relay switched by a relay switched by a relay: deeper chains are not followed. */
const deepest = 3;

/**
 * The hand settings that `H4 switch on` means: those of the switches in series with the load, on its own way or on
 * that of the coil of a relay in its way. Found from the wiring alone, before anything is solved: a switch is in series
 * when without it no way is left from a supply to the load and back, other loads not being passed.
 *
 * @param word  a setting of such a switch; `on` and `off` also mean the first setting that feeds the load, and rest
 * @returns undefined when no switch of the load has such a setting
 * Cost: a walk of the wiring for each switch of the circuit.
 */
export function settingsOf(circuit: Circuit, load: Part, word: string): Meant | undefined {
  const own = load.kind.loadEnds?.(load);
  if (!own) return undefined;
  const wiring = new Wiring(circuit, load.id);
  const ends = own.map((t) => wiring.place(load.id, t)) as [string, string];
  const series = wiring.inSeries(ends, deepest);
  const named = series.flatMap(({ part }) => settingNamed(part, word).map((setting) => ({ part: part.id, setting })));
  if (named.length > 0) return { all: named };
  const holding = series.filter(({ part, ends: e }) => !wiring.feeds(e, new Map([[part.id, restOf(part)]])));
  if (word === 'off' && holding.length > 0) return { all: holding.map(({ part }) => ({ part: part.id, setting: restOf(part) })) };
  if (word === 'on' && holding.length > 0) {
    const settings = holding.flatMap(({ part, ends: e }) => {
      const setting = part.kind.settings!(part).find((s) => wiring.feeds(e, new Map([[part.id, s]])));
      return setting === undefined ? [] : [{ part: part.id, setting }];
    });
    if (settings.length > 0) return { all: settings };
  }
  const beside = wiring.sideBySide(ends).flatMap((part) => settingNamed(part, word).map((setting) => ({ part: part.id, setting })));
  return beside.length === 0 ? undefined : beside.length === 1 ? { all: beside } : { oneOf: beside };
}

/** The part's setting that a word means, itself or by an alias; empty when none. */
export function settingNamed(part: Part, word: string): readonly string[] {
  const settings = part.kind.settings?.(part) ?? [];
  const lower = word.toLowerCase();
  const exact = settings.filter((s) => s === word);
  if (exact.length > 0) return exact;
  return settings.filter((s) => s.toLowerCase() === lower || part.kind.aliases?.[s]?.toLowerCase() === lower).slice(0, 1);
}

const restOf = (part: Part): string => part.kind.settings!(part)[0]!;
const settable = (part: Part): boolean => (part.kind.settings?.(part).length ?? 0) > 1;

/** The wiring with every switch, contact and relay free to stand as it likes, unless held. */
class Wiring {
  private readonly circuit: Circuit;
  private readonly beside = new Map<string, Edge[]>();
  private readonly fastened: ReadonlyMap<string, string>;
  private readonly switches: readonly Part[];
  private readonly relays: readonly Part[];
  private readonly plus: ReadonlySet<string>;
  private readonly minus: ReadonlySet<string>;

  constructor(circuit: Circuit, load: string) {
    this.circuit = circuit;
    this.fastened = new Map(circuit.attached);
    const parts = [...circuit.parts.values()];
    this.switches = parts.filter((p) => p.id !== load && settable(p));
    this.relays = parts.filter((p) => p.kind.varies?.includes('state') && !p.isLoad);
    for (const part of parts.filter((p) => !p.isLoad && p.id !== load))
      for (const edge of this.edgesOf(part))
        for (const end of [edge.a, edge.b]) {
          const list = this.beside.get(end);
          if (list) list.push(edge);
          else this.beside.set(end, [edge]);
        }
    const supplies = parts.flatMap((p) => {
      const at = p.kind.supply?.(p);
      return at ? [at.map((t) => this.place(p.id, t)) as [string, string]] : [];
    });
    this.plus = this.joinedTo(supplies.map(([plus]) => plus));
    const minus = supplies.map(([, t]) => t);
    this.minus = this.joinedTo(this.plus.has(GROUND) ? minus : [...minus, GROUND]);
  }

  /** Where a terminal of a part is in the wiring: a wire's end is the terminal that it is fastened to. */
  place(part: string, terminal: string): string {
    if (terminal === 'ground' || terminal === 'block') return terminal;
    const own = `${part}.${terminal}`;
    return this.fastened.get(own) ?? own;
  }

  private edgesOf(part: Part): readonly Edge[] {
    return elementsAt(part, part.kind.settings?.(part)[0] ?? '', this.circuit.ambient).map((e) => {
      const [a, b] = 'plus' in e ? [e.plus, e.minus] : 'into' in e ? [e.into, e.outOf] : [e.from, e.to];
      return { part, element: e.id, a: this.place(part.id, a), b: this.place(part.id, b) };
    });
  }

  /** All points joined to these by wires, fuses and the like, which nothing switches. */
  private joinedTo(start: readonly string[]): ReadonlySet<string> {
    const fixed = (part: Part) =>
      !part.kind.varies?.some((v) => v !== 'state') && !(part.kind.varies?.length && this.edgesOf(part).length > 1);
    return this.flood(start, (edge) => fixed(edge.part) && this.ohms(edge) <= joint_ohm, new Set());
  }

  /** Of an element at a setting, rest unless told. A law (a diode, a coil) may carry current, and is no joint: NaN. */
  private ohms(edge: Edge, setting?: string): number {
    const at = setting ?? edge.part.kind.settings?.(edge.part)[0] ?? '';
    const e = elementsAt(edge.part, at, this.circuit.ambient).find((x) => x.id === edge.element);
    return e === undefined ? Number.POSITIVE_INFINITY : 'from' in e && 'ohm' in e ? e.ohm : Number.NaN;
  }

  private flood(start: readonly string[], passable: (edge: Edge) => boolean, barrier: ReadonlySet<string>): ReadonlySet<string> {
    const found = new Set(start);
    const open = [...found];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      if (barrier.has(at)) continue;
      for (const edge of this.beside.get(at) ?? []) {
        const next = edge.a === at ? edge.b : edge.a;
        if (found.has(next) || !passable(edge)) continue;
        found.add(next);
        open.push(next);
      }
    }
    return found;
  }

  /** True when a supply can still be reached from one end and its other side from the other. */
  feeds([first, second]: Ends, held: Held): boolean {
    const passable = (edge: Edge) => {
      const at = held.get(edge.part.id);
      return at === undefined || (at !== null && this.ohms(edge, at) !== Number.POSITIVE_INFINITY);
    };
    const reaches = (from: string, goal: ReadonlySet<string>, barrier: ReadonlySet<string>) =>
      [...this.flood([from], passable, barrier)].some((t) => goal.has(t));
    const fed = (a: string, b: string) => reaches(a, this.plus, this.minus) && reaches(b, this.minus, this.plus);
    return fed(first, second) || fed(second, first);
  }

  /** Switches without which the way is cut, on it or on the way of a relay's coil, each with the ends of the way it belongs to. */
  inSeries(ends: Ends, depth: number): readonly { readonly part: Part; readonly ends: Ends }[] {
    if (depth === 0 || !this.feeds(ends, new Map())) return [];
    const cut = (p: Part) => !this.feeds(ends, new Map([[p.id, null]]));
    const direct = this.switches.filter(cut).map((part) => ({ part, ends }));
    const through = this.relays.filter((r) => !settable(r) && cut(r));
    const coils = through.flatMap((relay) =>
      this.edgesOf(relay)
        .filter((e) => this.ohms(e) !== Number.POSITIVE_INFINITY && this.feeds([e.a, e.b], new Map([[relay.id, null]])))
        .flatMap((e) => this.inSeries([e.a, e.b], depth - 1)),
    );
    const all = [...direct, ...coils];
    return all.filter((s, k) => all.findIndex((o) => o.part === s.part) === k);
  }

  /** Switches of which each one alone can feed the load: two doors and one lamp. */
  sideBySide(ends: Ends): readonly Part[] {
    const none = new Map<string, string | null>(this.switches.map((s) => [s.id, null]));
    if (this.feeds(ends, none)) return [];
    return this.switches.filter((s) => this.feeds(ends, new Map([...none].filter(([id]) => id !== s.id))));
  }
}

function elementsAt(part: Part, setting: string, ambient: number) {
  return part.kind.elements(part, { key: undefined, setting, engine: 'stopped', ambient, state: part.kind.initial?.(part) ?? {} });
}
