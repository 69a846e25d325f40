import type { Element, Reading } from './element.ts';
import type { Parameters, Params, Source } from './parameter.ts';
import type { Condition, KeyPlace, State } from './scene.ts';

/** A part of a circuit. `P` is what its kind's parameters hold; outside `src/parts` nobody looks into `params`. */
export type Part<P = Readonly<Record<string, unknown>>> = {
  /** As in the file: `S1`. Wires are parts too: `W7`. */
  readonly id: string;
  readonly kind: PartKind;
  /** What people call it: `Panel lamp`. Without one, the kind's title. */
  readonly name?: string;
  /** Where it sits, in words. */
  readonly place?: string;
  readonly params: P;
  /** Parameters that the file gave; the others are defaults. */
  readonly given: ReadonlySet<string>;
  /** Has a row in the position table. */
  readonly isLoad: boolean;
  /** Hand actions that the load's row of the position table needs, written in the file (`with: [S2 at 2]`); when absent they are found from the wiring. */
  readonly needs?: readonly string[];
  /** Free text of the file. */
  readonly note?: string;
  /** Minutes to reach it, when the file knows better than the kind's `access`. */
  readonly minutes?: number;
};

export type Terminal = {
  readonly name: string;
  readonly about?: string;
  /** Often left without a wire (relay 87a, spare pin): no warning when nothing is fastened to it. */
  readonly optional?: true;
};

/** What several parameters of one part say together and that cannot be, or not be meant. */
export type Flaw = {
  /** Parameter, and the way into its written form; absent: the whole part. */
  readonly at?: readonly (string | number)[];
  readonly severity?: 'error' | 'warning';
  /** A fact without a full stop, without naming the part. */
  readonly what: string;
  readonly mend: readonly string[];
};

/** A two-terminal piece of the drawing; upright in a column, `from` on top (towards the supply). `symbol` is one of `src/report/symbols`. */
export type Pole = {
  /** Unique within the part; '' for a part with one pole. Poles of one part may stand apart (detached representation). */
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly symbol: string;
  /** Short text beside it besides the part's id: `10 A`, `21 W`. */
  readonly label?: string;
  /** The element whose current and whose open or closed state it shows; absent: the element of the same id. */
  readonly element?: string;
};

export type Verdict = 'works' | 'weak' | 'dead';
/** A load's verdict by its own limits, with the volts and amperes that it was judged by. */
export type Judged = { readonly verdict: Verdict; readonly volts: number; readonly amperes: number };

/** A limit that the solver watches: continuous guide value of a contact, wire, fuse, relay. */
export type Rating = {
  readonly element: string;
  readonly limit_A: number;
  /** Limit for some seconds, while the starter turns; the continuous limit when absent. */
  readonly short_A?: number;
  readonly what: string;
  readonly source: Source;
};

/** One change that a fault makes to the circuit. Data, so that a set of faults can be looked through, screened and combined. Elements are local ids of the faulty part; terminals in `bridge` and `attach` are global (`S1.15`, `ground`). */
export type Change =
  /** Adds resistance in series with an element. ohm > 0, `Infinity` = open. */
  | { readonly do: 'series'; readonly element: string; readonly ohm: number }
  /** Puts a fixed resistance in place of an element, in every condition: welded, shorted turn. */
  | { readonly do: 'fix'; readonly element: string; readonly ohm: number }
  /** A new resistance between two terminals anywhere: short, leakage, tracking. ohm > 0. */
  | { readonly do: 'bridge'; readonly from: string; readonly to: string; readonly ohm: number }
  /** A new constant draw from one terminal to another. */
  | { readonly do: 'draw'; readonly from: string; readonly to: string; readonly ampere: number }
  /** Other parameters: wrong fuse, wrong lamp, lost motion, dead sector, module that does not sleep. */
  | { readonly do: 'params'; readonly patch: Readonly<Record<string, unknown>> }
  /** A wire's end moved to another terminal. end 1 or 2. */
  | { readonly do: 'attach'; readonly end: 1 | 2; readonly terminal: string };

/** One way in which a part can be faulty. The phrase is `SUBJECT WORDS [detail]`, e.g. `S1.30-15` + `open at ON`, `W7` + `0.8 Ω`. */
export type FaultMode = {
  /** Part or part.element, as people would say: `F3`, `S1.30-15`, `K1.coil`. */
  readonly subject: string;
  /** `open`, `blown`, `stuck closed`, `open at ON`, `comes and goes`, `bridged`, `lost motion`; '' when the detail says it all (`0.8 Ω`). */
  readonly words: string;
  /** A quantity after the words. `grades` stand for the whole range when hypotheses are made: how bad is a parameter, not another suspect. */
  readonly detail?: {
    readonly dimension: 'resistance' | 'angle' | 'current' | 'share' | 'power' | 'time';
    readonly default: number;
    readonly grades: readonly number[];
    readonly min: number;
    readonly max: number;
    /** True when the phrase may leave it out (`S1.30-50 comes and goes`). */
    readonly optional: boolean;
  };
  /** A sentence without a full stop: `contact 30-15 does not close at the ON detent`. */
  readonly text: string;
  /** Prior weight relative to other modes, > 0; 1 = an ordinary wire breaking. */
  readonly weight: number;
  readonly source: Source;
  /** `touch`: there only a share of the time (detail is that share, 0..1 = how often it is FAULTY). */
  readonly sometimes?: true;
  /** Two modes with the same word here cannot both be in (open and stuck closed of one contact). Default: the subject. */
  readonly excludes?: string;
  /** The changes, for a detail in SI units (default when absent). */
  readonly changes: (detail: number) => readonly Change[];
};

/** What it takes to reach a part, for ranking readings. Minutes for an experienced hand, first access; an estimate unless a source is given. */
export type Access = {
  readonly minutes: number;
  readonly where: string;
  readonly caution?: string;
  readonly price?: number;
  readonly source: Source;
};

/** What a battery holds. `charge` 0..1 names the slow quantity of its state as well. */
export type Store = {
  readonly capacity_Ah: number;
  readonly charge: number;
  /** Share of the capacity lost in a day at 20 °C. */
  readonly losesPerDay: number;
  /** Parameters of the same battery when it only just passes a load test. */
  readonly aged: Readonly<Record<string, unknown>>;
};

/** A fuse as a shunt: I = U / R. `spread` is the relative uncertainty of R. */
export type Shunt = { readonly rating_A: number; readonly ohm: number; readonly spread: number; readonly source: Source };

/** A key switch as the program sees it: positions and the travel between them. */
export type KeyModel = {
  readonly positions: readonly {
    readonly name: string;
    readonly angle: number;
    readonly keyOut: boolean;
    readonly springsTo?: string;
    /** The key must go back to its first position before it can come here again. */
    readonly repeatLock?: boolean;
  }[];
  /** Contact pairs, in file order: `30-15`, each with the sectors in which it ought to be closed, degrees of switch travel. */
  readonly contacts: readonly { readonly id: string; readonly sectors: readonly (readonly [number, number])[] }[];
  /** Where the switch itself stands for a place of the key (lost motion, weak spring). */
  readonly switchAngle: (key: KeyPlace) => number;
  /** Where the key comes to rest when let go at this place: a sprung position returns, a weak spring stops short. */
  readonly released: (key: KeyPlace) => KeyPlace;
};

/** What a load is there for. `body`: what moves or warms; `comfort`: what is heard or plugged in. */
export type Service = 'starting' | 'engine' | 'light' | 'instruments' | 'body' | 'comfort' | 'modules';

/**
 * A kind of part: one file in `src/parts/`, one entry in its list, one symbol. Nothing else in the program may ask
 * which kind a part is; what differs between kinds is asked through these members.
 * All functions are pure; none may throw for a part that the reader accepted.
 */
export type PartKind<P = Readonly<Record<string, unknown>>> = {
  /** The word after `kind:`. */
  readonly kind: string;
  readonly title: string;
  /** One line for `detent parts`. */
  readonly about: string;
  /** True for the wire itself: its ends are named by what they are fastened to. */
  readonly isWire?: true;
  /** IEC 81346 letter by habit: G, S, F, K, M, E, H, P, R, X, XE, W. */
  readonly letter: string;
  readonly parameters: Parameters;
  /** Looks at the parameters together, once each of them was read. */
  readonly check?: (part: Part<P>) => readonly Flaw[];
  readonly terminals: (part: Part<P>) => readonly Terminal[];
  /** Hand settings, rest first: `['off', 'on']`, `['closed', 'open']`. Absent: nothing to set. */
  readonly settings?: (part: Part<P>) => readonly string[];
  /** Minutes to bring another setting about than the first, where no hand just moves it: an engine must get hot. An estimate. */
  readonly setting_min?: number;
  /** Words for a setting in a hand phrase (`switch on`, `switch at 2`, `door open`) are the settings themselves; aliases here lead to them: { pressed: 'on' }. */
  readonly aliases?: Readonly<Record<string, string>>;
  readonly key?: (part: Part<P>) => KeyModel;
  /** What makes its elements differ from one instant to another; absent or empty: they never do. */
  readonly varies?: readonly ('key' | 'hand' | 'engine' | 'state')[];
  readonly elements: (part: Part<P>, at: Condition) => readonly Element[];
  /** State before anything was switched on. Absent: the part has no state. */
  readonly initial?: (part: Part<P>) => State;
  /** State in which the part would be after waiting, given the solved instant; returned unchanged (same object) when it is settled. Hysteresis lives here. */
  readonly settle?: (part: Part<P>, at: Condition, read: Reading) => State;
  /**
   * Seconds in which a fuse, link or breaker opens for certain if this instant lasts; `Infinity` when it holds or is open. What is slow
   * waits until everything quick has settled, and the quickest of them opens first: a fuse outlives the click of a solenoid.
   */
  readonly opensIn?: (part: Part<P>, at: Condition, read: Reading) => number;
  /** Loads only: the verdict by the part's own limits. */
  readonly judge?: (part: Part<P>, at: Condition, read: Reading) => Judged;
  /** True if this kind is a load unless the file says `load: no`. */
  readonly load?: boolean;
  /** Loads only: what a vehicle has it for, unless the circuit's `engine` says better. A drawing is folded by this. */
  readonly serves?: Service;
  /** Terminals where its load current enters and leaves in the healthy circuit (feed and return paths start here); for loads. */
  readonly loadEnds?: (part: Part<P>) => readonly [string, string];
  /** Loads that a driver sees or hears: what is said of them, after their name (`is dead`, `stays dark`). Absent: it works out of the driver's sight. */
  readonly driver?: { readonly works: string; readonly weak: string; readonly dead: string };
  /** Elements that are a source of supply for paths: plus terminal and minus terminal. */
  readonly supply?: (part: Part<P>) => readonly [string, string] | undefined;
  readonly ratings?: (part: Part<P>, ambient: number) => readonly Rating[];
  /** A battery: what it holds and what it loses by itself. */
  readonly store?: (part: Part<P>) => Store;
  /** A fuse whose cold resistance is known well enough to read small currents across it. */
  readonly shunt?: (part: Part<P>) => Shunt;
  readonly poles: (part: Part<P>) => readonly Pole[];
  readonly faults: (part: Part<P>, context: FaultContext) => readonly FaultMode[];
  readonly access: (part: Part<P>) => Access;
  /** Behaviour in time, for `src/play`. */
  readonly timing?: Timing<P>;
  /** For what cranks an engine: its speed as a share of that with a healthy vehicle's volts, 0 = held fast. */
  readonly turning?: (part: Part<P>, at: Condition, read: Reading) => number;
};

/** What a part may know of its surroundings when it lists its faults: where its terminals lead. */
export type FaultContext = {
  /** Ids of the key positions of the circuit's key switch. */
  readonly positions: readonly string[];
  /** A terminal that is always live (the supply's plus), if there is one. */
  readonly feed: string | undefined;
};

/** How a slow quantity goes on while an instant lasts: units per second, or towards a value with a time constant in s. */
export type Rate = number | { readonly to: number; readonly tau: number };

/**
 * How a part changes with time, for `src/play`. What `settle` asks of a slow quantity must be a threshold that it
 * passes once (`heat >= 1`), never a beat (`phase % 1`): then the moment of passing is found however long the wait.
 */
export type Timing<P = Readonly<Record<string, unknown>>> = {
  /** Seconds until the discrete change from `state` to `wanted` happens, once the part wants it (0 = at once). */
  readonly delay?: (part: Part<P>, state: State, wanted: State) => number;
  /**
   * Slow quantities as a play begins, such as the heat of a fuse. While the state holds them, `settle` goes by them; without them it
   * answers for one instant that lasts.
   */
  readonly slow?: State;
  /** Slow quantities, all of them at every instant: where each is going. What no state holds yet begins at 0. */
  readonly rates?: (part: Part<P>, at: Condition, read: Reading) => Readonly<Record<string, Rate>>;
};

/** Ties the parameter types of a kind's file together; the program then sees the kind without them. */
export function definePart<const P extends Parameters>(kind: PartKind<Params<P>> & { readonly parameters: P }): PartKind {
  return kind as unknown as PartKind;
}
