import { ownerOf } from '../circuit/ownerOf.ts';
import type { Shunt } from '../circuit/part.ts';
import { loadAt, loadsAt } from '../solve/loads.ts';
import type { OperatingPoint } from '../solve/operatingPoint.ts';
import { entropy } from './bayes.ts';
import {
  alreadySeen,
  type Candidate,
  dropReading,
  pointReading,
  probesOf,
  type Stage,
  savedMinutes,
  type Tool,
  whileDown,
} from './candidates.ts';
import { minutesPerMoney, openShare, step_min } from './costs.ts';
import type { During, Finding } from './finding.ts';
import { meterWidth } from './likelihood.ts';
import { asWatched, type Case, cutOf, type Held, massOf, type Outcome, outcomesOf, type Saying, sayingsOf, unitOf } from './outcomes.ts';
import { otherSideOf, type Predictor, shuntAcross } from './predict.ts';
import { sameAs } from './secondLooks.ts';
import { ValueSift } from './valueSift.ts';

/** A reading worth taking, with all that can come of it. */
export type NextReading = {
  readonly candidate: Candidate;
  /** With what is open already counted in. */
  readonly minutes: number;
  readonly bits: number;
  /** Bits a minute, price counted as minutes of labour. */
  readonly worth: number;
  readonly outcomes: readonly Outcome[];
  /** It was seen before, and does not fit: a second look tells a slip from a second fault. */
  readonly again: boolean;
};

const plain = (worth: number): number => Number(worth.toPrecision(6));

/** Best first, to six digits: what is worth as much but for the last bits of a solution stays in the order in which the key turns. */
export const byWorth = (a: Pick<NextReading, 'worth'>, b: Pick<NextReading, 'worth'>): number => plain(b.worth) - plain(a.worth);

/** Under this a look tells nothing worth a glance, and a reading or a try nothing worth a walk, bits. */
const leastBits = 0.01;
const leastBitsByHand = 0.04;

/** What is worth looking at or reading, for one set of believed states of the vehicle. */
export class Survey {
  readonly ranked: NextReading[] = [];
  private readonly mass: Float64Array;
  private readonly open: ReadonlySet<string>;
  private readonly limit: number;
  private readonly floor: Floor;
  private readonly predictor: Predictor;
  private readonly held: readonly Held[];
  private readonly findings: readonly Finding[];
  private readonly tools: readonly Tool[];
  private readonly doubts: readonly Finding[];

  constructor(
    predictor: Predictor,
    held: readonly Held[],
    suspects: number,
    findings: readonly Finding[],
    tools: readonly Tool[],
    atLeast: number,
    doubts: readonly Finding[],
  ) {
    this.predictor = predictor;
    this.held = held;
    this.findings = findings;
    this.tools = tools;
    this.doubts = doubts;
    this.mass = massOf(held, suspects);
    this.open = openedParts(findings);
    this.limit = entropy(this.mass);
    this.floor = new Floor(atLeast);
  }

  /** All that can be seen and metered in one stage; so the answers of one may be forgotten before the next. */
  lookAt(stage: Stage): void {
    const { predictor, held, mass } = this;
    const { vehicles } = predictor;
    const cases = held.flatMap((h) =>
      vehicles.of(h.faults).map((v): Standing => {
        return { of: { suspect: h.suspect, weight: h.mass * v.share }, state: h, at: vehicles.answerOfBelieved(v, stage.scene) };
      }),
    );
    const [look] = stage.looks;
    if (look?.observable.of === 'engine') for (const candidate of stage.looks) this.ask(candidate);
    else if (sameEverywhere(cases)) return;
    else for (const candidate of [...stage.looks, ...stage.unasked]) this.consider(candidate, () => loadSayings(cases, candidate));
    for (const during of downs(stage, this.findings)) {
      const then = duringOf(predictor, cases, stage, during);
      for (const look of stage.looks)
        if ('load' in look.observable && look.observable.load !== during.load)
          this.consider(whileDown(look, during), () => loadSayings(then, look, true));
    }
    if (!stage.meter || !this.tools.includes('meter')) return;
    meterReadings(predictor, stage, bothSides(cases), mass, (c, s, most) => this.consider(c, s, most));
    for (const during of downs(stage, this.findings)) {
      const then = duringOf(predictor, cases, stage, during);
      meterReadings(predictor, stage, then, mass, (c, s, most) => this.consider(whileDown(c, during), s, most));
    }
  }

  ask(candidate: Candidate): void {
    this.consider(candidate, () => sayingsOf(this.predictor, candidate, this.held));
  }

  private consider(candidate: Candidate, sayings: () => readonly Saying[], most = mostBits(candidate)): void {
    const { mass, floor } = this;
    const minutes = minutesOf(candidate, this.open) - savedMinutes(this.predictor.circuit, candidate.scene.hand, this.findings);
    const cost = minutes + candidate.price * minutesPerMoney + step_min;
    const least = candidate.effort === 0 ? leastBits : leastBitsByHand;
    if (Math.min(this.limit, most) / cost < floor.value || most < least) return;
    const cut = cutOf(sayings(), mass);
    if (cut.bits < least || cut.bits / cost < floor.value) return;
    const again = alreadySeen(candidate, this.findings);
    if (again && !this.doubts.some(sameAs(candidate))) return;
    const worth = cut.bits / cost;
    floor.add(worth);
    const outcomes = outcomesOf(cut, unitOf(candidate), mass.length);
    this.ranked.push({ candidate, minutes, bits: cut.bits, worth, outcomes, again });
  }
}

/** Takes something into account that could be read. `most`: bits that it can be worth at most, where that is known better. */
type Consider = (candidate: Candidate, sayings: () => readonly Saying[], most?: number) => void;

/** What something can tell at most, whatever is believed: looks come out in so many words. */
function mostBits({ observable }: Candidate): number {
  switch (observable.of) {
    case 'load':
    case 'exchange':
    case 'touch':
      return Math.log2(4);
    case 'engine':
      return Math.log2(6);
    default:
      return Number.POSITIVE_INFINITY;
  }
}

/** A believed state of the vehicle as it stands in one scene, in one of its worlds. */
type Standing = { readonly of: Case; readonly state: Held; readonly at: OperatingPoint };

/** @param atOnce they are looked at one moment */
function loadSayings(cases: readonly Standing[], { observable }: Candidate, atOnce = false): readonly Saying[] {
  const load = observable.of === 'load' ? observable.load : '';
  const sayings = cases.map(({ of, at }): Saying => {
    const verdict = (at.alternate ? loadsAt(at).find((l) => l.id === load) : loadAt(at, load))?.verdict ?? 'dead';
    return { of, label: verdict === 'chatters' ? 'comes and goes' : verdict, at: 0, width: 0, chance: 1 };
  });
  if (atOnce) return sayings;
  const watched: Saying[] = [];
  for (let from = 0; from < cases.length; ) {
    let to = from + 1;
    while (to < cases.length && cases[to]!.state === cases[from]!.state) to++;
    watched.push(...(to === from + 1 ? [sayings[from]!] : asWatched(sayings.slice(from, to))));
    from = to;
  }
  return watched;
}

/** The sift: of all places for leads those where the believed vehicles differ by more than an instrument's tolerance. */
function meterReadings(predictor: Predictor, stage: Stage, cases: readonly Standing[], mass: Float64Array, consider: Consider): void {
  const { points, drops } = probesOf(predictor);
  const sags = cases.map(({ at }) => predictor.sags(at));
  const sift = new ValueSift(
    cases.map((c) => c.of),
    mass,
  );
  const { at: volts, width } = sift;
  /** The fuse that the leads are put across. */
  let shunt: Shunt | undefined;
  const differ = (): boolean => {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const volt of volts) {
      if (volt < low) low = volt;
      if (volt > high) high = volt;
    }
    return high - low > meterWidth(Math.min(Math.abs(low), Math.abs(high)), false, shunt);
  };
  const sayings = () => cases.map(({ of }, k): Saying => ({ of, label: '', at: volts[k]!, width: width[k]!, chance: 1 }));
  const take = (candidate: () => Candidate) => {
    if (!differ()) return;
    for (let k = 0; k < cases.length; k++) width[k] = meterWidth(volts[k]!, sags[k]!, shunt);
    consider(candidate(), sayings, sift.bits());
  };
  for (const p of points) {
    for (let k = 0; k < cases.length; k++) {
      const { at } = cases[k]!;
      volts[k] = at.floats[p.node] === 1 ? 0 : at.nodeVolts[p.node]!;
    }
    take(() => pointReading(stage, p));
  }
  for (const [a, b] of drops) {
    shunt = shuntAcross(predictor.circuit, a.terminal, b.terminal);
    for (let k = 0; k < cases.length; k++) {
      const { at } = cases[k]!;
      volts[k] = at.floats[a.node] === 1 || at.floats[b.node] === 1 ? 0 : at.nodeVolts[a.node]! - at.nodeVolts[b.node]!;
    }
    take(() => dropReading(stage, [a, b]));
  }
}

/** A vehicle that chatters shows a meter now this, now that. */
const bothSides = (cases: readonly Standing[]): readonly Standing[] =>
  cases.flatMap((c) => {
    const other = otherSideOf(c.at);
    const of = { ...c.of, weight: c.of.weight / 2 };
    return other
      ? [
          { ...c, of },
          { ...c, of, at: other },
        ]
      : [c];
  });

/** Loads that were seen to come and go in this scene: read while they are down, they stand still for once. */
function downs({ scene }: Stage, findings: readonly Finding[]): readonly During[] {
  const key = JSON.stringify(scene);
  const loads = findings.flatMap((f) =>
    f.observable.of === 'load' && 'word' in f.seen && f.seen.word === 'comes and goes' && JSON.stringify(f.scene) === key
      ? [f.observable.load]
      : [],
  );
  return [...new Set(loads)].map((load) => ({ load, word: 'dead' }));
}

/** The cases with the shares of their worlds while a load is down. */
function duringOf(predictor: Predictor, cases: readonly Standing[], { scene }: Stage, during: During): readonly Standing[] {
  const shares = new Map<Held, readonly number[]>();
  let place = 0;
  return cases.map((c, k) => {
    place = cases[k - 1]?.state === c.state ? place + 1 : 0;
    const own = shares.get(c.state) ?? predictor.sharesDuring(predictor.vehicles.of(c.state.faults), scene, during);
    shares.set(c.state, own);
    return { ...c, of: { ...c.of, weight: c.state.mass * own[place]! } };
  });
}

/** Nobody's faults make themselves felt: all answers hold the very numbers of the healthy vehicle. */
function sameEverywhere(cases: readonly Standing[]): boolean {
  const first = cases[0]!.at;
  return cases.every(({ at }) => at.nodeVolts === first.nodeVolts && sameFloats(at.floats, first.floats) && sameParts(at, first));
}

const sameFloats = (a: Uint8Array, b: Uint8Array): boolean => a === b || a.every((f, n) => f === b[n]);
/** Judged by the same limits: no part with other parameters among the loads. */
const sameParts = (a: OperatingPoint, b: OperatingPoint): boolean =>
  a.network === b.network || a.network.members.every((m, k) => m.part === b.network.members[k]?.part || !m.part.isLoad);

/** Parts at which a reading was taken, so that covers are off. */
function openedParts(findings: readonly Finding[]): ReadonlySet<string> {
  return new Set(
    findings.flatMap(({ observable: o }) =>
      o.of === 'volts' ? [ownerOf(o.at), ownerOf(o.to)] : o.of === 'amperes' ? [ownerOf(o.at)] : 'part' in o ? [o.part] : [],
    ),
  );
}

function minutesOf({ observable, minutes, access = 0 }: Candidate, open: ReadonlySet<string>): number {
  const isOpen = observable.of === 'volts' && open.has(ownerOf(observable.at)) && isAtHand(observable.to, open);
  return isOpen ? minutes - (1 - openShare) * access : minutes;
}

const isAtHand = (to: string, open: ReadonlySet<string>): boolean => to === 'ground' || open.has(ownerOf(to));

/** The worth that a reading must reach to be among the best few so far. */
class Floor {
  private readonly best: number[] = [];
  private readonly most: number;
  constructor(most: number) {
    this.most = most;
  }
  get value(): number {
    return this.best.length < this.most ? 0 : this.best.at(-1)!;
  }
  add(worth: number): void {
    this.best.push(worth);
    this.best.sort((a, b) => b - a);
    if (this.best.length > this.most) this.best.pop();
  }
}
