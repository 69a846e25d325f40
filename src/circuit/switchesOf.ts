import { type Circuit, GROUND } from './circuit.ts';
import type { Part } from './part.ts';
import { type Edge, edgesBeside, edgesOf, isJoint, ohmsOf, pointOf, reached, restSetting } from './wiringEdges.ts';

/** A setting of one switch. */
export type Setting = { readonly part: string; readonly setting: string };

/** What a hand phrase may mean: the settings to make together, or several switches of which one has to be named. */
export type Meant = { readonly all: readonly Setting[] } | { readonly oneOf: readonly Setting[] };

type Ends = readonly [string, string];
/** Switches held for a trial: at a setting, or taken out. */
type Held = ReadonlyMap<string, string | null>;

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
  const ends = own.map((t) => wiring.point(load.id, t)) as [string, string];
  const series = wiring.inSeries(ends, deepest);
  const named = series.flatMap(({ part }) => settingNamed(part, word).map((setting) => ({ part: part.id, setting })));
  if (named.length > 0) return { all: named };
  const holding = series.filter(({ part, ends: e }) => !wiring.feeds(e, new Map([[part.id, restSetting(part)]])));
  if (word === 'off' && holding.length > 0) return { all: holding.map(({ part }) => ({ part: part.id, setting: restSetting(part) })) };
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
  const meant = Object.entries(part.kind.aliases ?? {}).find(([alias]) => alias.toLowerCase() === lower)?.[1];
  return settings.filter((s) => s.toLowerCase() === lower || s === meant).slice(0, 1);
}

/** All words for the settings of a part: the settings themselves and their aliases. */
export function settingWords(part: Part): readonly string[] {
  const settings = part.kind.settings?.(part) ?? [];
  return settings.length === 0 ? [] : [...settings, ...Object.keys(part.kind.aliases ?? {})];
}

const settable = (part: Part): boolean => (part.kind.settings?.(part).length ?? 0) > 1;

/** The wiring with every switch, contact and relay free to stand as it likes, unless held. */
class Wiring {
  private readonly circuit: Circuit;
  private readonly fastened: ReadonlyMap<string, string>;
  private readonly beside: ReadonlyMap<string, readonly Edge[]>;
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
    const passed = parts.filter((p) => !p.isLoad && p.id !== load);
    this.beside = edgesBeside(passed.flatMap((p) => edgesOf(circuit, this.fastened, p)));
    const supplies = parts.flatMap((p) => {
      const at = p.kind.supply?.(p);
      return at ? [at.map((t) => this.point(p.id, t)) as [string, string]] : [];
    });
    this.plus = this.joinedTo(supplies.map(([plus]) => plus));
    const minus = supplies.map(([, t]) => t);
    this.minus = this.joinedTo(this.plus.has(GROUND) ? minus : [...minus, GROUND]);
  }

  point(part: string, terminal: string): string {
    return pointOf(this.fastened, part, terminal);
  }

  private joinedTo(start: readonly string[]): ReadonlySet<string> {
    return reached(this.beside, start, (edge) => isJoint(this.circuit, edge));
  }

  /** True when a supply can still be reached from one end and its other side from the other. */
  feeds([first, second]: Ends, held: Held): boolean {
    const passable = (edge: Edge) => {
      const at = held.get(edge.part.id);
      return at === undefined || (at !== null && ohmsOf(this.circuit, edge, at) !== Number.POSITIVE_INFINITY);
    };
    const reaches = (from: string, goal: ReadonlySet<string>, barrier: ReadonlySet<string>) =>
      [...reached(this.beside, [from], passable, barrier)].some((t) => goal.has(t));
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
      edgesOf(this.circuit, this.fastened, relay)
        .filter((e) => ohmsOf(this.circuit, e, restSetting(relay)) !== Number.POSITIVE_INFINITY)
        .filter((e) => this.feeds([e.a, e.b], new Map([[relay.id, null]])))
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
