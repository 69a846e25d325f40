import type { Circuit } from '../circuit/circuit.ts';
import type { KeyModel } from '../circuit/part.ts';
import type { KeyPlace, Scene, State } from '../circuit/scene.ts';
import { keepsRunning } from '../solve/engine.ts';
import { type LoadSeen, loadsAt } from '../solve/loads.ts';
import { type Network, network, type PartChange } from '../solve/network.ts';
import { conditionOf, type OperatingPoint, operatingPoint, readingOf } from '../solve/operatingPoint.ts';
import { type EngineFed, type EngineMotion, engineAfter, engineStateOf, engineWord, nextEngineEvent, standing } from './engineMotion.ts';
import { draw } from './random.ts';

/** A fault that is there only sometimes: drawn anew whenever the key or something else is moved. */
export type Chance = { readonly share: number; readonly changes: readonly PartChange[] };
export type Put = { readonly changes: readonly PartChange[]; readonly sometimes: readonly Chance[] };

/** Everything that goes on from one moment to the next; plain data, so that a story can be cut and continued. */
export type Moment = {
  /** Seconds since the story began. */
  readonly t: number;
  readonly scene: Scene;
  readonly states: ReadonlyMap<string, State>;
  readonly engine: EngineMotion;
  /** Discrete changes on their way: part -> what it goes to, and when. */
  readonly pending: ReadonlyMap<string, { readonly to: State; readonly due: number }>;
  /** Which of the sometimes-faults are there now. */
  readonly present: readonly boolean[];
  readonly chance: number;
  /** The key has been in a position that may not be entered twice without going back. */
  readonly locked: boolean;
};

export type Sample = {
  readonly t: number;
  readonly key: KeyPlace | undefined;
  readonly engine: string;
  readonly speed: number;
  readonly loads: readonly LoadSeen[];
  readonly at: OperatingPoint;
};
export type PlayEvent = { readonly t: number; readonly what: string; readonly part: string };

/** Step of slow quantities: accepted when rates at both ends differ by less than this much of the quantity (at least 1) over the step. */
const slowError = 0.01;
/** A change of a discrete state is placed in time to this, s. */
const shortest_s = 0.002;
/** More changes of one part than this within a second, and it chatters. */
const chatterRate = 30;
/** No story needs more instants; a safety against our own mistakes. */
const mostInstants = 20000;

/**
 * Plays a circuit forwards in time, from event to event: solve, find what changes next (a relay's operate time, a
 * threshold of heat or charge, the engine's speed passing a mark), go there. Between events slow quantities follow
 * their rates with a step whose local error is held under `slowError`.
 *
 * The circuit is never changed. The same moment and seed give the same continuation.
 */
export class Player {
  readonly circuit: Circuit;
  readonly samples: Sample[] = [];
  readonly events: PlayEvent[] = [];
  moment: Moment;
  /** Set when something chatters: the play ends there. */
  chatters: { readonly parts: readonly string[]; readonly perSecond: number } | undefined;
  private readonly put: Put;
  private readonly networks = new Map<string, Network>();
  private readonly recent: { t: number; part: string }[] = [];
  private instants = 0;

  constructor(circuit: Circuit, put: Put, start: Moment) {
    this.circuit = circuit;
    this.put = put;
    this.moment = start;
    if (start.present.length !== put.sometimes.length) this.redraw();
  }

  /** The switch and its travel, with whatever faults are in it now. */
  get keyModel(): KeyModel | undefined {
    const part = this.network().members.find((m) => m.part.kind.key !== undefined)?.part;
    return part?.kind.key?.(part);
  }

  /** Draws anew which of the sometimes-faults are there: something was moved. */
  redraw(): void {
    let { chance } = this.moment;
    const present = this.put.sometimes.map(({ share }) => {
      const [drawn, next] = draw(chance);
      chance = next;
      return drawn < share;
    });
    this.moment = { ...this.moment, chance, present };
  }

  setScene(scene: Scene): void {
    this.moment = { ...this.moment, scene };
  }

  say(what: string, part = ''): void {
    this.events.push({ t: this.moment.t, what, part });
  }

  /** Lets time pass with nothing touched. */
  wait(seconds: number): void {
    const end = this.moment.t + seconds;
    this.settleNow();
    while (this.moment.t < end - 1e-9 && !this.chatters && this.instants < mostInstants) this.step(end);
  }

  /** Solves the moment as it stands, lets what changes at once change, and notes what is due later. */
  private settleNow(): Solved {
    for (let round = 0; ; round++) {
      const solved = this.solve();
      const wanted = this.wanted(solved.at, this.moment.states);
      const pending = new Map<string, { to: State; due: number }>();
      const now = new Map<string, State>();
      for (const [id, { to, delay }] of wanted) {
        const before = this.moment.pending.get(id);
        const due = before && same(before.to, to) ? before.due : this.moment.t + delay;
        if (due <= this.moment.t + 1e-9) now.set(id, to);
        else pending.set(id, { to, due });
      }
      this.moment = { ...this.moment, pending };
      if (now.size === 0 || this.chatters) {
        this.sample(solved);
        return solved;
      }
      for (const [id, to] of now) this.change(id, to);
      this.moment = { ...this.moment, states: new Map([...this.moment.states, ...now]) };
      if (round > 200) this.chatter([...now.keys()], Number.POSITIVE_INFINITY);
    }
  }

  private step(end: number): void {
    const solved = this.settleNow();
    const { t, engine } = this.moment;
    const due = [...this.moment.pending.values()].map((p) => p.due - t);
    let dt = Math.max(1e-6, Math.min(end - t, nextEngineEvent(engine, solved.fed), ...due));
    const rates = this.rates(solved.at);
    dt = this.crossing(solved.at, rates, dt);
    for (;;) {
      const later = this.later(solved, rates, dt);
      const far = this.solve(later);
      const error = errorOf(rates, this.rates(far.at, later), later.states, dt);
      const turned = dt > shortest_s && this.turns(solved, far, later);
      if (error > slowError && dt > 1e-5) dt *= Math.max(0.1, Math.min(0.5, Math.sqrt(slowError / error)));
      else if (turned) dt /= 2;
      else {
        this.moment = later;
        return;
      }
    }
  }

  /** The moment `dt` later with the same rates. */
  private later(solved: Solved, rates: Rates, dt: number): Moment {
    const engine = engineAfter(this.moment.engine, solved.fed, dt);
    const cranks = solved.fed.cranks;
    const scene = { ...this.moment.scene, engine: this.circuit.engine ? engineStateOf(engine, cranks) : this.moment.scene.engine };
    return { ...this.moment, t: this.moment.t + dt, states: moved(this.moment.states, rates, dt), engine, scene };
  }

  /** True when a part wants another state at the far end than at the near one, by the volts there: then the step was too long. */
  private turns(near: Solved, far: Solved, later: Moment): boolean {
    const before = this.wanted(near.at, this.moment.states);
    const after = this.wanted(far.at, later.states);
    return [...after].some(([id, { to }]) => !same(discrete(before.get(id)?.to ?? this.moment.states.get(id) ?? {}), discrete(to)));
  }

  /** Earliest time, up to `dt`, at which a slow quantity alone makes a part want another state; by halving, without a solve. */
  private crossing(at: OperatingPoint, rates: Rates, dt: number): number {
    const now = key(this.wanted(at, this.moment.states));
    const changes = (s: number) => key(this.wanted(at, moved(this.moment.states, rates, s))) !== now;
    if (rates.size === 0 || !changes(dt)) return dt;
    let [low, high] = [0, dt];
    for (let k = 0; k < 50 && high - low > 1e-6 * Math.max(1e-3, high); k++) {
      const middle = (low + high) / 2;
      if (changes(middle)) high = middle;
      else low = middle;
    }
    return high;
  }

  private wanted(at: OperatingPoint, states: ReadonlyMap<string, State>): ReadonlyMap<string, { to: State; delay: number }> {
    const found = new Map<string, { to: State; delay: number }>();
    for (const member of at.network.members) {
      const { part } = member;
      if (!part.kind.settle) continue;
      const condition = conditionOf(at.network, member, at.scene, states);
      const to = part.kind.settle(part, condition, readingOf(at, part.id));
      if (to !== condition.state) found.set(part.id, { to, delay: part.kind.timing?.delay?.(part, condition.state, to) ?? 0 });
    }
    return found;
  }

  private rates(at: OperatingPoint, moment = this.moment): Rates {
    const found = new Map<string, Readonly<Record<string, number>>>();
    for (const member of at.network.members) {
      const { part } = member;
      const rates = part.kind.timing?.rates?.(part, conditionOf(at.network, member, moment.scene, moment.states), readingOf(at, part.id));
      if (rates && Object.values(rates).some((r) => r !== 0)) found.set(part.id, rates);
    }
    return found;
  }

  private solve(moment = this.moment): Solved {
    this.instants++;
    const at = operatingPoint(this.network(moment.present), moment.scene, moment.states, false);
    const loads = loadsAt(at);
    return { at, loads, fed: this.fed(loads, moment) };
  }

  private fed(loads: readonly LoadSeen[], moment: Moment): EngineFed {
    const spec = this.circuit.engine;
    if (!spec) return { cranks: false, share: 0, alive: false };
    const of = (id: string) => loads.find((l) => l.id === id);
    const starter = of(spec.crank);
    return {
      cranks: starter !== undefined && starter.verdict !== 'dead',
      share: starter ? Math.abs(starter.volts) / this.cranking_V(moment) : 0,
      alive: keepsRunning(spec, loads),
    };
  }

  private rated: number | undefined;
  /** Volts at the starter of the healthy vehicle: cranking speed is counted from there. */
  private cranking_V(moment: Moment): number {
    if (this.rated === undefined) {
      const crank = this.circuit.engine!.crank;
      const model = this.keyModel;
      const places: (KeyPlace | undefined)[] = model ? model.positions.map((p) => ({ angle: p.angle, came: 'up', in: true })) : [undefined];
      const healthy = network(this.circuit);
      const volts = places.map((place) => {
        const loads = loadsAt(operatingPoint(healthy, { ...moment.scene, ...(place && { key: place }), engine: 'stopped' }));
        return Math.abs(loads.find((l) => l.id === crank)?.volts ?? 0);
      });
      this.rated = Math.max(1, ...volts);
    }
    return this.rated;
  }

  private network(present = this.moment.present): Network {
    const { apart, bridged, swapped } = this.moment.scene;
    const name = JSON.stringify([present, apart, bridged, swapped]);
    const known = this.networks.get(name);
    if (known) return known;
    const changes = [...this.put.changes, ...this.put.sometimes.flatMap((s, k) => (present[k] ? s.changes : []))];
    const made = network(this.circuit, changes, { apart, bridged, swapped });
    this.networks.set(name, made);
    return made;
  }

  private change(id: string, to: State): void {
    const from = this.moment.states.get(id) ?? {};
    this.say(changeWords(from, to), id);
    const { t } = this.moment;
    this.recent.push({ t, part: id });
    while (this.recent.length > 0 && this.recent[0]!.t < t - 1) this.recent.shift();
    const own = this.recent.filter((r) => r.part === id).length;
    if (own > chatterRate) this.chatter([...new Set(this.recent.map((r) => r.part))], own);
  }

  private chatter(parts: readonly string[], perSecond: number): void {
    if (this.chatters) return;
    this.chatters = { parts, perSecond };
    this.say(
      `chatters${Number.isFinite(perSecond) ? `, more than ${perSecond} changes a second` : ''}: ${parts.join(', ')}`,
      parts[0] ?? '',
    );
  }

  private lastWord = '';
  private sample({ at, loads, fed }: Solved): void {
    const { t, scene, engine } = this.moment;
    const word = this.circuit.engine ? engineWord(engine, fed.cranks) : '';
    if (word !== this.lastWord && this.lastWord !== '') this.say(engineEvent(this.lastWord, word), 'engine');
    this.lastWord = word;
    this.samples.push({ t, key: scene.key, engine: word, speed: engine.speed, loads, at });
  }
}

type Rates = ReadonlyMap<string, Readonly<Record<string, number>>>;
type Solved = { readonly at: OperatingPoint; readonly loads: readonly LoadSeen[]; readonly fed: EngineFed };

/** The first moment of a story: nothing on, every part as it leaves the shop. */
export function firstMoment(circuit: Circuit, scene: Scene, seed: number): Moment {
  const states = new Map<string, State>();
  for (const part of circuit.parts.values()) {
    const state = part.kind.initial?.(part);
    if (state) states.set(part.id, { ...state, ...part.kind.timing?.slow });
  }
  return { t: 0, scene, states, engine: standing, pending: new Map(), present: [], chance: seed | 0, locked: false };
}

function moved(states: ReadonlyMap<string, State>, rates: Rates, dt: number): ReadonlyMap<string, State> {
  if (rates.size === 0) return states;
  const after = new Map(states);
  for (const [id, own] of rates) {
    const state = { ...after.get(id) };
    for (const [name, rate] of Object.entries(own)) state[name] = Number(state[name] ?? 0) + rate * dt;
    after.set(id, state);
  }
  return after;
}

function errorOf(near: Rates, far: Rates, states: ReadonlyMap<string, State>, dt: number): number {
  let worst = 0;
  for (const id of new Set([...near.keys(), ...far.keys()])) {
    const [a, b] = [near.get(id) ?? {}, far.get(id) ?? {}];
    for (const name of new Set([...Object.keys(a), ...Object.keys(b)])) {
      const size = Math.max(1, Math.abs(Number(states.get(id)?.[name] ?? 0)));
      worst = Math.max(worst, (Math.abs((b[name] ?? 0) - (a[name] ?? 0)) * dt) / 2 / size);
    }
  }
  return worst;
}

/** A state without its slow quantities. */
const discrete = (state: State): State => Object.fromEntries(Object.entries(state).filter(([, v]) => typeof v !== 'number'));
const same = (a: State, b: State): boolean => JSON.stringify(discrete(a)) === JSON.stringify(discrete(b));
const key = (wanted: ReadonlyMap<string, { to: State }>): string => JSON.stringify([...wanted].map(([id, { to }]) => [id, discrete(to)]));

function changeWords(from: State, to: State): string {
  const changed = Object.entries(to).filter(([name, value]) => typeof value !== 'number' && from[name] !== value);
  return (
    changed.map(([name, value]) => (value === true ? name : value === false ? `no longer ${name}` : `${name}: ${value}`)).join(', ') ||
    'changes'
  );
}

function engineEvent(from: string, to: string): string {
  if (to === 'runs') return 'engine fires and runs';
  if (to === 'cranks') return 'starter turns the engine';
  if (from === 'runs') return 'engine dies';
  if (to === 'still') return 'engine stands still';
  return 'starter is out, the engine runs down';
}
