import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { ownerOf } from '../circuit/ownerOf.ts';
import type { Part } from '../circuit/part.ts';
import type { KeyPlace, Scene } from '../circuit/scene.ts';
import type { Fault } from '../faults/fault.ts';
import { loadsOf } from '../solve/loads.ts';
import { sameState } from '../solve/partValues.ts';
import { type Hand, tableNeeds } from '../solve/tableNeeds.ts';
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
const look_min = 0.4;
/** Minutes for each thing that is switched or held for a reading (estimate). */
const setting_min = 0.2;
/** Extra minutes when the starter has to turn, for the caution taken (estimate). */
const start_min = 1;
/** Extra minutes to set up a jumper lead with its fuse (estimate). */
const jumper_min = 3;

/** Extra minutes to unplug something and plug it in again (estimate). */
const unplug_min = 1;
/** Scenes of findings that are set up again with something unplugged, the latest first, and parts that are tried. */
const mostScenes = 2;
const mostParts = 14;

const startCaution = 'out of gear, wheels chocked, hands clear: the starter turns';
/** Minutes to put a new fuse in, or a test lamp in its place (estimate). */
const renew_min = 1;
const renewCaution = 'a new fuse of the same rating only: while the fault is in it blows again; a test lamp in its place spares fuses';
const unplugCaution = 'key off while unplugging; disconnect the battery before unplugging an unfused feed';
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

/** What a scene costs to set up, and how it is looked at. `turns`: the starter does, in the sound vehicle. */
function stageOf(predictor: Predictor, scene: Scene) {
  const turns = predictor.sags(predictor.vehicles.answer(predictor.vehicles.healthy, scene));
  const settings = Object.keys(scene.hand).map((id) => predictor.circuit.parts.get(id)?.kind.setting_min ?? setting_min);
  const minutes = (turns ? start_min : 0) + settings.reduce((sum, m) => sum + m, 0);
  const cautions = turns ? [startCaution] : [];
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
  const found = toolsAtHand.includes('clamp') ? [...keyOffCurrent(circuit, places)] : [];
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

/**
 * What was found amiss looked at again with something unplugged: a short, a leak or a backfeed goes away with what
 * holds it, which is how pieces of one run at the same potential are told apart. Tried are the suspects themselves and
 * what their wires are fastened to.
 *
 * Of currents only the whole one: what flows in one wire tells its own tale.
 *
 * What a suspect blew stays blown when the plug is off, so a new one goes in for the reading.
 *
 * @param suspected ids of suspected parts, likeliest first
 * @param believed  sets of faults that are believed in, likeliest first: what they blow is renewed
 * @param amiss     findings that a sound vehicle would not give
 */
export function unplugging(
  predictor: Predictor,
  suspected: readonly string[],
  amiss: readonly Finding[],
  believed: readonly (readonly Fault[])[] = [],
): readonly Candidate[] {
  const { circuit } = predictor;
  const beside = (id: string) =>
    circuit.attached.flatMap(([end, t]) => (ownerOf(end) === id ? [ownerOf(t)] : ownerOf(t) === id ? [ownerOf(end)] : []));
  const near = suspected.flatMap((id) => (circuit.parts.get(id)?.kind.isWire ? beside(id) : [id]));
  const parts = [...new Set(near)].flatMap((id) => circuit.parts.get(id) ?? []).filter((p) => !p.kind.isWire && !p.kind.supply);
  const isWhole = (o: Observable) => o.of !== 'amperes' || circuit.parts.get(ownerOf(o.at))?.kind.supply !== undefined;
  const scenes = scenesOf(amiss.filter((f) => isWhole(f.observable)));
  return parts.slice(0, mostParts).flatMap((part) => {
    const { minutes, cautions } = accessTo(part);
    return [...scenes].flatMap(([scene, found]) => {
      const turns = found.some((f) => f.observable.of === 'engine');
      const renews = blownIn(predictor, scene, believed).filter((id) => id !== part.id);
      return found
        .filter(({ observable: o }) => !('load' in o && o.load === part.id) && !('at' in o && ownerOf(o.at) === part.id))
        .map(
          ({ observable }): Candidate => ({
            scene: { ...scene, apart: [part.id] },
            observable,
            minutes: minutes + unplug_min + look_min + (turns ? start_min : 0) + renew_min * renews.length,
            price: 0,
            cautions: [...cautions, unplugCaution, ...(renews.length > 0 ? [renewCaution] : []), ...(turns ? [startCaution] : [])],
            effort: 2,
            ...(renews.length > 0 && { renews }),
          }),
        );
    });
  });
}

/** Extra minutes to get the jaws of a clamp round one wire (estimate). */
const clamp_min = 1;

/**
 * A clamp round each suspected wire, at either end, where something was found amiss: of wires that run to one point only
 * that which is chafed carries the current of the short.
 *
 * @param suspected ids of suspected parts, likeliest first
 */
export function clamping(predictor: Predictor, suspected: readonly string[], amiss: readonly Finding[]): readonly Candidate[] {
  const { circuit } = predictor;
  const wires = suspected.flatMap((id) => circuit.parts.get(id) ?? []).filter((p) => p.kind.isWire);
  return wires.flatMap((wire) => {
    const { minutes, cautions } = accessTo(wire);
    return [...scenesOf(amiss)].flatMap(([scene, found]) => {
      const turns = found.some((f) => f.observable.of === 'engine');
      return wire.kind.terminals(wire).map(
        (t): Candidate => ({
          scene,
          observable: { of: 'amperes', at: `${wire.id}.${t.name}`, instrument: 'clamp' },
          minutes: minutes + clamp_min + (turns ? start_min : 0),
          price: 0,
          cautions: [...cautions, ...(turns ? [startCaution] : [])],
          effort: 1,
        }),
      );
    });
  });
}

/** The latest scenes in which something was found amiss, as the vehicle stands, with what was found. */
function scenesOf(amiss: readonly Finding[]): ReadonlyMap<Scene, readonly Finding[]> {
  const scenes = new Map<Scene, Finding[]>();
  for (const f of [...amiss].reverse()) {
    const { apart, bridged, swapped } = f.scene;
    if (apart.length + bridged.length + swapped.length > 0 || !isOfScene(f)) continue;
    const same = [...scenes.keys()].find((s) => JSON.stringify(s) === JSON.stringify(f.scene));
    if (same) scenes.get(same)!.push(f);
    else if (scenes.size < mostScenes) scenes.set(f.scene, [f]);
  }
  return scenes;
}

/** How many of those believed in are asked what they blow. */
const mostAsked = 6;

/** Parts that open for good in a scene, as fuses do, though they would not in a sound vehicle. */
function blownIn(predictor: Predictor, scene: Scene, believed: readonly (readonly Fault[])[]): readonly string[] {
  const { vehicles, circuit } = predictor;
  const sound = vehicles.answer(vehicles.healthy, scene).states;
  const opening = [...circuit.parts.values()].filter((p) => p.kind.opensIn !== undefined);
  const blown = believed.slice(0, mostAsked).flatMap((faults) =>
    vehicles.of(faults).flatMap((vehicle) => {
      const { states } = vehicles.answer(vehicle, scene);
      return opening.flatMap((p) => (sameState(states.get(p.id), sound.get(p.id)) || faults.some((f) => f.part === p.id) ? [] : [p.id]));
    }),
  );
  return [...new Set(blown)];
}

/** Something that is there again each time the scene is set up. */
const isOfScene = ({ observable }: Finding): boolean =>
  observable.of === 'load' || observable.of === 'engine' || observable.of === 'amperes' || observable.of === 'volts';

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

const sceneOf = (key: KeyPlace | undefined, hand: Hand): Scene => ({
  ...(key && { key }),
  hand,
  engine: 'stopped',
  apart: [],
  bridged: [],
  swapped: [],
});

/** Current at the battery's minus with the key at its first place and everything at rest. */
function keyOffCurrent(circuit: Circuit, places: readonly Place[]): readonly Candidate[] {
  for (const part of circuit.parts.values()) {
    const ends = part.kind.supply?.(part);
    if (!ends) continue;
    const observable: Observable = { of: 'amperes', at: `${part.id}.${ends[1]}`, instrument: 'clamp' };
    const cautions = ['let the modules fall asleep first'];
    return [{ scene: sceneOf(places[0]!.key, {}), observable, minutes: 5, price: 0, cautions, effort: 1 }];
  }
  return [];
}

const accessTo = (part: Part) => {
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

/** A fused jumper past each contact, and whether what was missed then works. */
function bridged(predictor: Predictor, part: Part, places: readonly Place[], missed: readonly string[]): readonly Candidate[] {
  const { circuit } = predictor;
  if (part.isLoad || part.kind.supply || !part.kind.varies?.length) return [];
  const { minutes, cautions } = accessTo(part);
  const needs = tableNeeds(circuit);
  const crank = circuit.engine?.crank;
  const loads = loadsOf(circuit.parts.values()).filter((l) => l.id !== crank && missed.includes(l.id));
  const names = part.kind.terminals(part).map((t) => t.name);
  const poles = part.kind.poles(part).filter((p) => names.includes(p.from) && names.includes(p.to));
  const still = places.filter((p) => p.key?.came !== 'back' && !starts(predictor, p));
  return poles.flatMap((pole) => {
    const pair = [`${part.id}.${pole.from}`, `${part.id}.${pole.to}`] as const;
    return still.flatMap(({ key }) =>
      loads.map((load): Candidate => {
        const scene: Scene = { ...sceneOf(key, needs.get(load.id) ?? {}), bridged: [pair] };
        const observable: Observable = { of: 'load', load: load.id };
        return { scene, observable, minutes: minutes + jumper_min, price: 0, cautions: [...cautions, jumperCaution], effort: 1 };
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
