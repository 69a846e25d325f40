import type { Circuit } from '../circuit/circuit.ts';
import type { KeyModel } from '../circuit/part.ts';
import type { Scene, State } from '../circuit/scene.ts';
import { keepsRunning } from '../solve/engine.ts';
import { type LoadSeen, loadsAt } from '../solve/loads.ts';
import { type Network, network } from '../solve/network.ts';
import { conditionOf, type OperatingPoint, operatingPoint, readingOf } from '../solve/operatingPoint.ts';
import { memberOf } from '../solve/reading.ts';
import { turnedSwitch } from '../solve/turnedSwitch.ts';
import { type EngineFed, type EngineWord, engineAfter, engineEvent, engineStateOf, engineWord, nextEngineEvent } from './engineMotion.ts';
import type { Corner, Moment, PlayEvent, Put, Sample } from './moment.ts';
import { draw } from './random.ts';
import { beatByBeat_s, Rounds } from './rounds.ts';
import { corrected, quickest, type Rates, sameSwitches, statesAfter } from './slow.ts';
import { crossing, delayOf, ratesAt, turned, type Wishes, wishesAt, withEngine, withQuantities } from './wishes.ts';

/** Largest correction of a slow quantity in one step, as a share of it or of 1, whichever is more. */
const stepError = 0.005;
/** What the volts of a step bring about is placed in time to this, s, or to this share of the wait so far. */
const shortest_s = 0.002;
const shortestShare = 1e-5;
/** No load's current changes within a step by more than this share and this much, unless the step is as short as this, s. */
const coarse = { share: 0.5, ampere: 0.1, seconds: 0.001 } as const;
/** More changes of one part than this within a second, and it chatters. */
const chatterChanges = 30;
/** A story that needs more instants is ended with a word. */
const mostInstants = 20_000;

/** What a play came to a stop over before its story was told. */
export type Stopped = { readonly parts: readonly string[]; readonly perSecond: number };

const none: ReadonlySet<string> = new Set();

type Solved = { readonly at: OperatingPoint; readonly loads: readonly LoadSeen[]; readonly fed: EngineFed; readonly wishes: Wishes };

/**
 * Plays a circuit forwards in time, from event to event: solve, find what changes next (a relay's operate time, a
 * threshold of heat or charge, the engine's speed passing a mark), go there. Between events slow quantities follow
 * their rates in closed form while these hold, else with Heun's rule, in steps whose correction is at most
 * `stepError`; the sum of the corrections is `bound`. What volts bring about (a relay that drops as they sag) is
 * placed to 2 ms, or 1e-5 of the wait.
 *
 * The circuit is never changed. The same moment and seed give the same continuation.
 */
export class Player {
  readonly circuit: Circuit;
  readonly samples: Sample[] = [];
  readonly events: PlayEvent[] = [];
  /** Corners of the key's travel; none for a circuit without a key switch. */
  readonly travel: Corner[] = [];
  moment: Moment;
  /** Set when something chatters: the play ends there. */
  chatters: Stopped | undefined;
  /** Sum of all corrections so far: no slow quantity is further off than this share of itself or of 1, whichever is more. */
  bound = 0;
  private readonly put: Put;
  private known: { readonly of: Pick<Moment, 'present' | 'scene'>; readonly network: Network } | undefined;
  private carried: Solved | undefined;
  private engineWas: EngineWord;
  /** Longest step to try next; after a change it is not known. */
  private stride: number | undefined;
  private readonly rounds = new Rounds();
  private touched: number;
  private instants = 0;
  private ratesKnown: { readonly of: Solved; readonly rates: Rates } | undefined;

  constructor(circuit: Circuit, put: Put, start: Moment) {
    this.circuit = circuit;
    this.put = put;
    this.moment = start;
    this.touched = start.t;
    this.engineWas = engineWord(start.engine, start.scene.engine === 'cranking');
    if (start.present.length !== put.sometimes.length) this.redraw();
    if (start.states.size === 0) this.moment = { ...this.moment, states: withQuantities(this.solve().at) };
    this.turnedTo();
  }

  /** The switch and its travel, with whatever faults are in it now. */
  get keyModel(): KeyModel | undefined {
    return turnedSwitch(this.network())?.model;
  }

  /** Draws anew which of the sometimes-faults are there: something was moved. */
  redraw(): void {
    let { chance } = this.moment;
    const present = this.put.sometimes.map(({ share }) => {
      const [drawn, next] = draw(chance);
      chance = next;
      return drawn < share;
    });
    this.change({ chance, present });
  }

  setScene(scene: Scene): void {
    this.change({ scene });
    this.turnedTo();
  }

  /** Changes the moment by hand: what was solved before counts no more. */
  change(patch: Partial<Moment>): void {
    this.moment = { ...this.moment, ...patch };
    this.carried = undefined;
    this.stride = undefined;
    this.touched = this.moment.t;
  }

  say(what: string, part = ''): void {
    this.events.push({ t: this.moment.t, what, part });
  }

  /** Lets time pass with nothing touched. */
  wait(seconds: number): void {
    const end = this.moment.t + seconds;
    this.rounds.forget();
    for (;;) {
      const now = this.settled();
      if (this.chatters || this.moment.t >= end - 1e-9) return;
      if (this.leaps(now, end)) continue;
      if (this.instants > mostInstants) this.end('too much happens', [...this.moment.pending.keys()], 0);
      else this.step(now, end);
    }
  }

  /** Goes over rounds that repeat in one leap, as many as change nothing else. */
  private leaps(now: Solved, end: number): boolean {
    const { at, wishes } = now;
    const { moment } = this;
    if (moment.recent.at(-1)?.t !== moment.t || moment.t - this.touched < beatByBeat_s) return false;
    const leap = this.rounds.leapFrom(moment, this.ratesOf(now), end - moment.t);
    if (!leap || turned(wishes, wishesAt({ ...at, states: leap.states }), moment.states, leap.states, none)) return false;
    const pending = new Map([...moment.pending].map(([id, { to, due }]) => [id, { to, due: due + leap.seconds }]));
    const last = this.samples.at(-1);
    if (last) this.samples[this.samples.length - 1] = { ...last, roundFrom: leap.from };
    const part = moment.recent.at(-1)!.part;
    this.say('and so on, round after round', part);
    this.bound += leap.error;
    this.moment = { ...moment, t: moment.t + leap.seconds, states: leap.states, pending, recent: [] };
    this.carried = undefined;
    this.rounds.forget();
    return true;
  }

  /** Solves the moment as it stands, lets what changes at once change, and notes what is due later. */
  private settled(): Solved {
    for (let round = 0; ; round++) {
      const solved = this.carried ?? this.solve();
      this.carried = solved;
      const engine = this.circuit.engine ? engineStateOf(this.moment.engine, solved.fed.cranks) : this.moment.scene.engine;
      const pending = new Map<string, { to: State; due: number }>();
      const now = new Map<string, State>();
      for (const [id, to] of solved.wishes) {
        const from = solved.at.states.get(id) ?? {};
        const before = this.moment.pending.get(id);
        const due = before && sameSwitches(before.to, to) ? before.due : this.moment.t + delayOf(solved.at, id, from, to);
        if (due <= this.moment.t + 1e-9) now.set(id, to);
        else pending.set(id, { to, due });
      }
      this.moment = { ...this.moment, pending };
      const rests = now.size === 0 && engine === this.moment.scene.engine;
      if (rests || round === 0) this.sample(solved);
      if (rests || this.chatters) return solved;
      for (const [id, to] of now) this.switched(id, to);
      const states = new Map([...this.moment.states, ...now]);
      this.moment = { ...this.moment, states, scene: withEngine(this.moment.scene, engine) };
      this.carried = undefined;
      this.stride = undefined;
      if (round > 200) this.end('chatters without rest', [...now.keys()], Number.POSITIVE_INFINITY);
    }
  }

  /** Goes on to the next event, or as far as the slow quantities can be followed in one step. */
  private step(near: Solved, end: number): void {
    const { t, engine, pending, states } = this.moment;
    const rates = this.ratesOf(near);
    let most = Math.min(end - t, nextEngineEvent(engine, near.fed), this.stride ?? quickest(rates, states));
    for (const { due } of pending.values()) most = Math.min(most, due - t);
    let { seconds, parts } = crossing(near.at, near.wishes, rates, Math.max(1e-6, most));
    let wasLong = false;
    const shortest = Math.max(shortest_s, shortestShare * (t - this.touched));
    for (;;) {
      const ahead: Moment = {
        ...this.moment,
        t: t + seconds,
        states: statesAfter(states, rates, seconds),
        engine: engineAfter(engine, near.fed, seconds),
      };
      const far = this.solve(ahead);
      const { states: after, error } = corrected(states, ahead.states, rates, this.ratesOf(far), seconds);
      const shrink =
        error > stepError && seconds > 1e-5
          ? Math.max(0.05, Math.min(0.5, 0.8 * Math.sqrt(stepError / error)))
          : seconds > shortest && (isOther(near.fed, far.fed) || turned(near.wishes, far.wishes, states, ahead.states, parts))
            ? 0.5
            : seconds > coarse.seconds && isCoarse(near.loads, far.loads)
              ? 0.3
              : 1;
      if (shrink === 1) {
        this.stride = seconds * (wasLong ? 1.5 : 5);
        this.bound += error;
        this.moment = { ...ahead, states: after };
        this.carried = error === 0 ? far : undefined;
        return;
      }
      seconds *= shrink;
      wasLong = true;
      parts = new Set();
    }
  }

  private ratesOf(solved: Solved): Rates {
    if (this.ratesKnown?.of !== solved) this.ratesKnown = { of: solved, rates: ratesAt(solved.at) };
    return this.ratesKnown.rates;
  }

  private solve(moment = this.moment): Solved {
    this.instants++;
    const at = operatingPoint(this.network(moment), moment.scene, moment.states, false);
    const loads = loadsAt(at);
    return { at, loads, fed: this.fed(at, loads), wishes: wishesAt(at) };
  }

  private fed(at: OperatingPoint, loads: readonly LoadSeen[]): EngineFed {
    const spec = this.circuit.engine;
    if (!spec) return { cranks: false, share: 0, alive: false };
    const starter = loads.find((l) => l.id === spec.crank);
    const member = memberOf(at.network, spec.crank);
    const cranks = starter !== undefined && member !== undefined && starter.verdict !== 'dead';
    const turns = member?.part.kind.turning;
    const share = cranks && turns ? turns(member.part, conditionOf(at.network, member, at.scene, at.states), readingOf(at, spec.crank)) : 1;
    return { cranks, share: cranks ? share : 0, alive: keepsRunning(spec, loads) };
  }

  private network(of: Pick<Moment, 'present' | 'scene'> = this.moment): Network {
    const { present, scene } = of;
    const last = this.known?.of;
    if (
      this.known &&
      last?.present === present &&
      last.scene.apart === scene.apart &&
      last.scene.bridged === scene.bridged &&
      last.scene.swapped === scene.swapped
    )
      return this.known.network;
    const changes = [...this.put.changes, ...this.put.sometimes.flatMap((s, k) => (present[k] ? s.changes : []))];
    const { apart, bridged, swapped } = scene;
    this.known = { of, network: network(this.circuit, changes, { apart, bridged, swapped }) };
    return this.known.network;
  }

  private switched(id: string, to: State): void {
    if (this.chatters) return;
    const words = changeWords(this.moment.states.get(id) ?? {}, to);
    if (words === '') return;
    this.say(words, id);
    const { t } = this.moment;
    const recent = [...this.moment.recent.filter((r) => r.t >= t - 1), { t, part: id }];
    this.moment = { ...this.moment, recent };
    const own = recent.filter((r) => r.part === id);
    if (own.length <= chatterChanges) return;
    const perSecond = (own.length - 1) / Math.max(1e-3, t - own[0]!.t);
    this.end(`chatters, ${Math.round(perSecond)} changes a second`, [...new Set(recent.map((r) => r.part))], perSecond);
  }

  private end(word: string, parts: readonly string[], perSecond: number): void {
    if (this.chatters) return;
    this.chatters = { parts, perSecond };
    this.say(`${word}: ${parts.join(', ')}; the story ends here`, parts[0] ?? '');
  }

  /** Puts a part in that is known to be good: its state is as new. */
  renew(id: string): void {
    const states = new Map(this.moment.states);
    states.delete(id);
    this.change({ states });
    const fresh = withQuantities(this.solve().at).get(id);
    if (fresh) this.change({ states: states.set(id, fresh) });
  }

  private turnedTo(): void {
    const { t, scene } = this.moment;
    const last = this.travel.at(-1);
    if (scene.key && (last?.t !== t || last.angle !== scene.key.angle)) this.travel.push({ t, angle: scene.key.angle });
  }

  private sample({ at, loads, fed }: Solved): void {
    if (this.samples.at(-1)?.at === at) return;
    const { t, scene, engine: motion } = this.moment;
    const word = engineWord(motion, fed.cranks);
    if (word !== this.engineWas) this.say(engineEvent(this.engineWas, word), 'engine');
    this.engineWas = word;
    this.samples.push({
      t,
      key: scene.key,
      engine: this.circuit.engine ? word : '',
      speed: motion.speed,
      motion,
      fed,
      loads,
      at,
    });
  }
}

const isOther = (a: EngineFed, b: EngineFed): boolean => a.cranks !== b.cranks || a.alive !== b.alive;

function isCoarse(near: readonly LoadSeen[], far: readonly LoadSeen[]): boolean {
  for (let k = 0; k < near.length; k++) {
    const [a, b] = [near[k]!.amperes, far[k]!.amperes];
    const change = Math.abs(b - a);
    if (change > coarse.ampere && change > coarse.share * Math.max(Math.abs(a), Math.abs(b))) return true;
  }
  return false;
}

function changeWords(from: State, to: State): string {
  const changed = Object.entries(to).filter(
    ([name, value]) => typeof value !== 'number' && from[name] !== value && !(value === false && from[name] === undefined),
  );
  return changed.map(([name, value]) => (value === true ? name : value === false ? `no longer ${name}` : `${name}: ${value}`)).join(', ');
}
