import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf, keyTakenOut } from '../circuit/keySwitchOf.ts';
import type { Part } from '../circuit/part.ts';
import { type KeyPlace, type Scene, untouched } from '../circuit/scene.ts';
import { loadsOf } from '../solve/loads.ts';
import { amperesThrough } from '../solve/operatingPoint.ts';
import { type Hand, tableNeeds } from '../solve/tableNeeds.ts';
import { openShare } from './costs.ts';
import type { During, Finding, Observable } from './finding.ts';
import type { Predictor } from './predict.ts';

/** What a person has at hand. Eyes and questions are always there. */
export const tools = ['meter', 'lamp', 'clamp', 'jumper', 'ohmmeter', 'donor-switch'] as const;
export type Tool = (typeof tools)[number];
export const usualTools: readonly Tool[] = ['meter', 'lamp', 'clamp', 'jumper', 'ohmmeter'];

/** Something that could be looked at or read next. */
export type Candidate = {
  readonly scene: Scene;
  readonly observable: Observable;
  /** Hands-on minutes with access, first time at the place; estimates of the parts' access. */
  readonly minutes: number;
  /** Of these, minutes to get at the places of the leads: the second time a third (0 where absent). */
  readonly access?: number;
  /** Money for a part that must be at hand, 0 for a reading. */
  readonly price: number;
  readonly cautions: readonly string[];
  /** What opened for good in this scene before something was unplugged: a new one goes in first. */
  readonly renews?: readonly string[];
  /** 0 a question or a look, 1 a reading, 2 taking apart or exchanging. */
  readonly effort: 0 | 1 | 2;
};

/** One scene of the vehicle with all that could be seen or read in it. */
export type Stage = {
  readonly scene: Scene;
  readonly looks: readonly Candidate[];
  /** Looks at loads that nobody switched on: one that runs by itself is as good a finding as a dead one. */
  readonly unasked: readonly Candidate[];
  /** Minutes and cautions that the scene itself costs. */
  readonly minutes: number;
  readonly cautions: readonly string[];
  /** Where a meter may be put here. */
  readonly meter: boolean;
};

/** Minutes of a look at a load while the key stands there anyway (estimate: a whole position table takes 2 to 4 min). */
export const look_min = 0.4;
/** Minutes for each thing that is switched or held for a reading (estimate). */
const setting_min = 0.2;
/** Extra minutes when the starter has to turn, for the caution taken (estimate). */
const start_min = 1;
/** Extra minutes to set up a jumper lead with its fuse (estimate). */
const jumper_min = 3;

const startCaution = 'out of gear, wheels chocked, hands clear: the starter turns';
/** Minutes to find and pull a blown fuse and put a new one, or a test lamp, in its place (estimate). */
export const renew_min = 2;
export const unplugCaution = 'key off while unplugging; disconnect the battery before unplugging an unfused feed';
const jumperCaution = 'a fused jumper only, 5 A for a first try, never past a load';

/** Every scene of the position table, between the detents too, each with the loads that it asks about. */
export function stagesOf(predictor: Predictor): readonly Stage[] {
  const known = stages.get(predictor);
  if (known) return known;
  const { circuit } = predictor;
  const needs = tableNeeds(circuit);
  const loads = loadsOf(circuit.parts.values());
  const crank = circuit.engine?.crank;
  const crankHand = needs.get(crank ?? '') ?? {};
  const byHand = new Map<string, { hand: Hand; loads: string[] }>([['{}', { hand: {}, loads: [] }]]);
  for (const { id } of loads) {
    const hand = needs.get(id) ?? {};
    const key = JSON.stringify(hand);
    const same = byHand.get(key);
    if (same) same.loads.push(id);
    else byHand.set(key, { hand, loads: [id] });
  }
  const made = placesOf(circuit).flatMap((place) => {
    const starting = stageOf(predictor, sceneOf(place.key, crankHand));
    const engine: Stage[] =
      crank !== undefined && (starting.turns || place.key?.came === 'back')
        ? [{ ...starting.stage, looks: [starting.look({ of: 'engine' })], meter: false }]
        : [];
    return [
      ...engine,
      ...[...byHand.values()].map(({ hand, loads: ids }): Stage => {
        const { stage, look } = stageOf(predictor, sceneOf(place.key, hand));
        const seen = (load: string) => look({ of: 'load', load });
        const off = Object.keys(hand).length > 0 ? [] : loads.filter((l) => !ids.includes(l.id));
        return { ...stage, looks: ids.map(seen), unasked: off.map((l) => seen(l.id)), meter: true };
      }),
    ];
  });
  stages.set(predictor, made);
  return made;
}
const stages = new WeakMap<Predictor, readonly Stage[]>();

/** Minutes to bring everything that is set by hand to its setting, from rest. */
const settingMinutes = (circuit: Circuit, hand: Hand): number =>
  Object.keys(hand).reduce((sum, id) => sum + (circuit.parts.get(id)?.kind.setting_min ?? setting_min), 0);

/**
 * Of these minutes those that are saved: all for what stands so since the last finding, two thirds for what stood so
 * before, as an engine that is still warm gets hot sooner (estimate).
 */
export function savedMinutes(circuit: Circuit, wanted: Hand, findings: readonly Finding[]): number {
  const saved = Object.entries(wanted).map(([id, setting]) => {
    const share = findings.at(-1)?.scene.hand[id] === setting ? 1 : findings.some((f) => f.scene.hand[id] === setting) ? 1 - openShare : 0;
    return share * settingMinutes(circuit, { [id]: setting });
  });
  return saved.reduce((sum, m) => sum + m, 0);
}

/** What a scene costs to set up, and what to mind. `turns`: the starter does, in the sound vehicle. */
export function setUpOf(
  predictor: Predictor,
  scene: Scene,
): { readonly turns: boolean; readonly minutes: number; readonly cautions: readonly string[] } {
  const turns = predictor.sags(predictor.vehicles.answer(predictor.vehicles.healthy, scene));
  const minutes = (turns ? start_min : 0) + settingMinutes(predictor.circuit, scene.hand);
  return { turns, minutes, cautions: turns ? [startCaution] : [] };
}

/** A scene to set up, and how it is looked at. */
function stageOf(predictor: Predictor, scene: Scene) {
  const { turns, minutes, cautions } = setUpOf(predictor, scene);
  const look = (observable: Observable): Candidate => ({ scene, observable, minutes: look_min + minutes, price: 0, cautions, effort: 0 });
  return { turns, look, stage: { scene, looks: [] as readonly Candidate[], unasked: [] as readonly Candidate[], minutes, cautions } };
}

/** A lead's place: of terminals fastened together the one that is quickest to reach. */
export type Probe = { readonly terminal: string; readonly node: number; readonly minutes: number; readonly cautions: readonly string[] };

/** Where leads can be put: single points against ground, and both ends of every piece. */
export function probesOf(predictor: Predictor): {
  readonly points: readonly Probe[];
  readonly drops: readonly (readonly [Probe, Probe])[];
} {
  const known = probes.get(predictor);
  if (known) return known;
  const { vehicles, circuit } = predictor;
  const { nodeOf } = vehicles.network(vehicles.healthy, sceneOf(undefined, {}));
  // A terminal that nothing is fastened to tells nothing that a meter could read.
  const wired = new Set(circuit.attached.map(([, terminal]) => terminal));
  const best = new Map<number, Probe>();
  const drops: [Probe, Probe][] = [];
  for (const part of circuit.parts.values()) {
    if (part.kind.isWire) continue;
    const { minutes, caution } = part.kind.access(part);
    const probe = (name: string): Probe | undefined => {
      const terminal = `${part.id}.${name}`;
      const node = nodeOf.get(terminal);
      return node === undefined ? undefined : { terminal, node, minutes: part.minutes ?? minutes, cautions: caution ? [caution] : [] };
    };
    for (const { name } of part.kind.terminals(part)) {
      const here = wired.has(`${part.id}.${name}`) ? probe(name) : undefined;
      const before = here && best.get(here.node);
      if (here && here.node !== 0 && (before === undefined || here.minutes < before.minutes)) best.set(here.node, here);
    }
    for (const pole of part.kind.poles(part)) {
      const [from, to] = [probe(pole.from), probe(pole.to)];
      if (from && to && from.node !== to.node && from.node !== 0 && to.node !== 0) drops.push([from, to]);
    }
  }
  const made = { points: [...best.values()], drops };
  probes.set(predictor, made);
  return made;
}
const probes = new WeakMap<Predictor, { readonly points: readonly Probe[]; readonly drops: readonly (readonly [Probe, Probe])[] }>();

/** Volts at a point against the battery's return. */
export const pointReading = (stage: Stage, at: Probe): Candidate => ({
  scene: stage.scene,
  observable: { of: 'volts', at: at.terminal, to: 'ground', instrument: 'meter' },
  minutes: at.minutes + stage.minutes,
  access: at.minutes,
  price: 0,
  cautions: [...stage.cautions, ...at.cautions],
  effort: 1,
});

/** Minutes to wait with the leads on until what comes and goes is gone (estimate). */
const wait_min = 1.5;

/** The same, taken while a load is down. */
export const whileDown = (reading: Candidate, during: During): Candidate => ({
  ...reading,
  observable: { ...(reading.observable as Observable & { of: 'volts' | 'load' }), during },
  minutes: reading.minutes + wait_min,
});

/** Drop across a piece. */
export const dropReading = (stage: Stage, [at, to]: readonly [Probe, Probe]): Candidate => ({
  ...pointReading(stage, at),
  observable: { of: 'volts', at: at.terminal, to: to.terminal, instrument: 'meter' },
  minutes: Math.max(at.minutes, to.minutes) + 1 + stage.minutes,
  access: Math.max(at.minutes, to.minutes),
});

/**
 * What can be tried with hands on the parts named: touched, bridged past, exchanged, tested on the bench; and the
 * current that flows with the key out.
 *
 * @param missed loads that a jumper lead may bring back
 */
export function handsOn(
  predictor: Predictor,
  parts: readonly string[],
  toolsAtHand: readonly Tool[],
  missed: readonly string[] = [],
): readonly Candidate[] {
  const { circuit } = predictor;
  const places = placesOf(circuit);
  const found = toolsAtHand.includes('clamp') ? [...keyOffCurrent(circuit)] : [];
  for (const id of parts) {
    const part = circuit.parts.get(id);
    if (!part) continue;
    found.push(touched(part, places));
    if (toolsAtHand.includes('jumper')) found.push(...bridged(predictor, part, places, missed));
    if (part.kind.key && toolsAtHand.includes('donor-switch')) found.push(donor(part, places));
    if (part.kind.key && toolsAtHand.includes('ohmmeter')) found.push(...benchTests(part, places));
  }
  return found;
}

type Place = { readonly name: string; readonly key: KeyPlace | undefined };

function placesOf(circuit: Circuit): readonly Place[] {
  const lock = keySwitchOf(circuit);
  if (!lock) return [{ name: '', key: undefined }];
  const { model } = lock;
  const up = keyStretches(model).map((s): Place => ({ name: s.name, key: { angle: s.keyAngle, came: 'up', in: true } }));
  const back = model.positions.flatMap((p): Place[] => {
    const home = model.positions.find((q) => q.name === p.springsTo);
    return home ? [{ name: `${home.name} after ${p.name}`, key: { angle: home.angle, came: 'back', in: true } }] : [];
  });
  return [...up, ...back];
}

const sceneOf = (key: KeyPlace | undefined, hand: Hand): Scene => ({ ...untouched, ...(key && { key }), hand });

/** Current at the battery's minus with the key out and everything at rest. */
function keyOffCurrent(circuit: Circuit): readonly Candidate[] {
  for (const part of circuit.parts.values()) {
    const ends = part.kind.supply?.(part);
    if (!ends) continue;
    const observable: Observable = { of: 'amperes', at: `${part.id}.${ends[1]}`, instrument: 'clamp' };
    const cautions = ['let the modules fall asleep first'];
    const lock = keySwitchOf(circuit);
    return [{ scene: sceneOf(lock && keyTakenOut(lock.model), {}), observable, minutes: 5, price: 0, cautions, effort: 1 }];
  }
  return [];
}

/** Hands-on minutes to a part, its price and its caution. */
export const accessTo = (part: Part) => {
  const { minutes, caution, price } = part.kind.access(part);
  return { minutes: part.minutes ?? minutes, price: price ?? 0, cautions: caution ? [caution] : [] };
};

function touched(part: Part, places: readonly Place[]): Candidate {
  const { minutes, cautions } = accessTo(part);
  const observable: Observable = { of: 'touch', part: part.id, how: 'wiggled' };
  return { scene: sceneOf(places[0]!.key, {}), observable, minutes: minutes + 2, price: 0, cautions, effort: 1 };
}

/** A known good one plugged in for a try: as good as having it, no price but its loan. */
function donor(part: Part, places: readonly Place[]): Candidate {
  const { minutes, cautions } = accessTo(part);
  const observable: Observable = { of: 'exchange', part: part.id, how: 'swapped' };
  return { scene: sceneOf(places[0]!.key, {}), observable, minutes: minutes + 5, price: 0, cautions, effort: 2 };
}

/** Fuse of a jumper lead, A (common practice, no source). */
export const jumperFuse_A = 10;
/** Symbols of what joins and draws nothing itself, so that a jumper past it is no short. */
const joining: readonly string[] = ['contact', 'fuse', 'circuit-breaker', 'pressure', 'temperature'];

/**
 * A fused jumper past each contact and fuse, and whether what was missed then works. Never past a coil or a motor, and
 * nowhere where it would blow its own fuse in a sound vehicle: from a feed to ground, say.
 */
function bridged(predictor: Predictor, part: Part, places: readonly Place[], missed: readonly string[]): readonly Candidate[] {
  const { circuit } = predictor;
  if (part.isLoad || part.kind.supply || !part.kind.varies?.length) return [];
  const { minutes, cautions } = accessTo(part);
  const needs = tableNeeds(circuit);
  const crank = circuit.engine?.crank;
  const loads = loadsOf(circuit.parts.values()).filter((l) => l.id !== crank && missed.includes(l.id));
  const names = part.kind.terminals(part).map((t) => t.name);
  const poles = part.kind.poles(part).filter((p) => joining.includes(p.symbol) && names.includes(p.from) && names.includes(p.to));
  const still = places.filter((p) => p.key?.came !== 'back' && !starts(predictor, p));
  return poles.flatMap((pole) => {
    const pair = [`${part.id}.${pole.from}`, `${part.id}.${pole.to}`] as const;
    return still.flatMap(({ key }) =>
      loads.flatMap((load): Candidate[] => {
        const scene: Scene = { ...sceneOf(key, needs.get(load.id) ?? {}), bridged: [pair] };
        const sound = predictor.vehicles.answer(predictor.vehicles.healthy, scene);
        if (Math.abs(amperesThrough(sound, 'jumper1')) > jumperFuse_A) return [];
        const observable: Observable = { of: 'load', load: load.id };
        const all = minutes + jumper_min + settingMinutes(circuit, scene.hand);
        return [{ scene, observable, minutes: all, price: 0, cautions: [...cautions, jumperCaution], effort: 1 }];
      }),
    );
  });
}

function starts(predictor: Predictor, { key }: Place): boolean {
  const hand = tableNeeds(predictor.circuit).get(predictor.circuit.engine?.crank ?? '') ?? {};
  return predictor.sags(predictor.vehicles.answer(predictor.vehicles.healthy, sceneOf(key, hand)));
}

/** The switch on the bench, turned by hand to every detent: what the lock and its linkage lose is not there. */
function benchTests(part: Part, places: readonly Place[]): readonly Candidate[] {
  const { minutes, cautions } = accessTo(part);
  const model = part.kind.key!(part);
  return model.contacts.flatMap((c) => {
    const [a, b] = c.id.split('-');
    return model.positions.map(
      (p): Candidate => ({
        scene: sceneOf(places[0]!.key, {}),
        observable: { of: 'ohms', part: part.id, at: `${part.id}.${a}`, to: `${part.id}.${b}`, angle: p.angle },
        minutes: minutes + 15,
        price: 0,
        cautions: [...new Set([...cautions, 'disconnect the battery before unplugging an unfused feed'])],
        effort: 2,
      }),
    );
  });
}

/** The same thing in the same scene was seen already. */
export function alreadySeen({ scene, observable }: Candidate, findings: readonly Finding[]): boolean {
  const bench = observable.of === 'ohms' || observable.of === 'touch' || observable.of === 'exchange';
  const key = bench ? JSON.stringify(observable) : JSON.stringify([scene, observable]);
  return findings.some((f) => (bench ? JSON.stringify(f.observable) : JSON.stringify([f.scene, f.observable])) === key);
}
