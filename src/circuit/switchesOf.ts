import { type Circuit, GROUND } from './circuit.ts';
import type { Part } from './part.ts';
import { type Edge, edgesBeside, ohmsOf, pointOf, reached, restSetting, type Wires, wiresOf } from './wiringEdges.ts';

/** A setting of one switch. */
export type Setting = { readonly part: string; readonly setting: string };

/** What a hand phrase may mean: the settings to make together, or several switches of which one has to be named. */
export type Meant = { readonly all: readonly Setting[] } | { readonly oneOf: readonly Setting[] };

type Ends = readonly [string, string];
/** A switch, and the ends of the way that it belongs to. */
type InSeries = { readonly part: Part; readonly ends: Ends };
/** Switches held for a trial: at a setting, or taken out. */
type Held = ReadonlyMap<string, string | null>;

/** More than this is no coil but an input that senses, Ω: relay coils have up to 350 Ω, inputs 10 kΩ and more (estimate). */
const coilMost_ohm = 2000;
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
  const direct = wiring.inSeries(ends, deepest);
  // A starter hangs on the battery itself; what switches it is in the way of its own coil.
  const series = direct.length > 0 ? direct : wiring.coilsOf(load, own).flatMap((e) => wiring.inSeries(e, deepest));
  if (word.toLowerCase() === 'on' || word.toLowerCase() === 'off') return turnedOn(wiring, series, ends, word.toLowerCase());
  const named = series.flatMap(({ part }) => settingNamed(part, word).map((setting) => ({ part: part.id, setting })));
  if (named.length > 0) return { all: once(named) };
  const beside = wiring.sideBySide(ends).flatMap((part) => settingNamed(part, word).map((setting) => ({ part: part.id, setting })));
  return beside.length === 0 ? undefined : beside.length === 1 ? { all: beside } : { oneOf: beside };
}

/**
 * `on`: what stands in the way at rest gets the first setting that lets through, its own `on` before others. `off`:
 * that is put back to rest; where nothing stands in the way at rest, each switch gets the first setting that does.
 */
function turnedOn(wiring: Wiring, series: readonly InSeries[], ends: Ends, word: string): Meant | undefined {
  const first = (part: Part, e: Ends, fed: boolean, others: Held = new Map()): readonly Setting[] => {
    const settings = part.kind.settings!(part);
    const found = [...settings.filter((s) => s === word), ...settings].find(
      (s) => wiring.feeds(e, new Map([...others, [part.id, s]])) === fed,
    );
    return found === undefined ? [] : [{ part: part.id, setting: found }];
  };
  const holding = series.filter(({ part, ends: e }) => !wiring.feeds(e, new Map([[part.id, restSetting(part)]])));
  if (word === 'off') {
    const all =
      holding.length > 0
        ? holding.map(({ part }) => ({ part: part.id, setting: restSetting(part) }))
        : series.flatMap((s) => first(s.part, s.ends, false));
    return all.length === 0 ? undefined : { all: once(all) };
  }
  const all = holding.flatMap(({ part, ends: e }) => first(part, e, true));
  if (all.length > 0) return { all: once(all) };
  if (series.length > 0 || wiring.feeds(ends, wiring.allAtRest())) return undefined;
  const beside = wiring.sideBySide(ends).flatMap((part) => first(part, ends, true, wiring.allOut(part)));
  return beside.length === 0 ? undefined : beside.length === 1 ? { all: beside } : { oneOf: beside };
}

const once = (settings: readonly Setting[]): readonly Setting[] =>
  settings.filter((s, k) => settings.findIndex((o) => o.part === s.part) === k);

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
  private readonly wires: Wires;
  private readonly beside: ReadonlyMap<string, readonly Edge[]>;
  private readonly switches: readonly Part[];
  private readonly relays: readonly Part[];
  private readonly plus: ReadonlySet<string>;
  private readonly minus: ReadonlySet<string>;

  constructor(circuit: Circuit, load: string) {
    this.circuit = circuit;
    this.wires = wiresOf(circuit);
    const parts = [...circuit.parts.values()];
    this.switches = parts.filter((p) => p.id !== load && settable(p));
    this.relays = parts.filter((p) => p.kind.varies?.includes('state') && !p.isLoad);
    this.beside = edgesBeside(this.wires.edges.filter(({ part }) => !part.isLoad && part.id !== load));
    const supplies = parts.flatMap((p) => {
      const at = p.kind.supply?.(p);
      return at ? [at.map((t) => this.point(p.id, t)) as [string, string]] : [];
    });
    this.plus = this.joinedTo(supplies.map(([plus]) => plus));
    const minus = supplies.map(([, t]) => t);
    this.minus = this.joinedTo(this.plus.has(GROUND) ? minus : [...minus, GROUND]);
  }

  point(part: string, terminal: string): string {
    return pointOf(this.wires.fastened, part, terminal);
  }

  private joinedTo(start: readonly string[]): ReadonlySet<string> {
    return reached(this.beside, start, (edge) => edge.isJoint);
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
  inSeries(ends: Ends, depth: number): readonly InSeries[] {
    if (depth === 0 || !this.feeds(ends, new Map())) return [];
    const cut = (p: Part) => !this.feeds(ends, new Map([[p.id, null]]));
    const direct = this.switches.filter(cut).map((part) => ({ part, ends }));
    const through = this.relays.filter((r) => !settable(r) && cut(r));
    const coils = through.flatMap((relay) => this.coilsOf(relay).flatMap((e) => this.inSeries(e, depth - 1)));
    const all = [...direct, ...coils];
    return all.filter((s, k) => all.findIndex((o) => o.part === s.part) === k);
  }

  /** Ends of those elements of a part that hang on a supply by themselves: its coils. */
  coilsOf(part: Part, but: readonly string[] = []): readonly Ends[] {
    const main = but.map((t) => this.point(part.id, t));
    return this.wires.edges
      .filter((e) => e.part === part && !e.isJoint && !(main.includes(e.a) && main.includes(e.b)))
      .filter((e) => !(ohmsOf(this.circuit, e, restSetting(part)) > coilMost_ohm))
      .map((e) => [e.a, e.b] as const)
      .filter((e) => this.feeds(e, new Map([[part.id, null]])));
  }

  allAtRest(): Held {
    return new Map(this.switches.map((s) => [s.id, restSetting(s)]));
  }

  allOut(but: Part): Held {
    return new Map(this.switches.filter((s) => s !== but).map((s) => [s.id, null]));
  }

  /** Switches of which each one alone can feed the load: two doors and one lamp. */
  sideBySide(ends: Ends): readonly Part[] {
    const none = new Map<string, string | null>(this.switches.map((s) => [s.id, null]));
    if (this.feeds(ends, none)) return [];
    return this.switches.filter((s) => this.feeds(ends, this.allOut(s)));
  }
}
