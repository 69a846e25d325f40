import { keyStretches } from '../circuit/keyStretches.ts';
import type { Part } from '../circuit/part.ts';
import type { KeyPlace, Scene } from '../circuit/scene.ts';
import { loadsOf } from '../solve/loads.ts';
import { type Hand, tableNeeds } from '../solve/tableNeeds.ts';
import type { Finding, Observable } from './finding.ts';
import type { Predictor } from './predict.ts';

/** What a person has at hand. Eyes and questions are always there. */
export type Tool = 'meter' | 'lamp' | 'clamp' | 'jumper' | 'ohmmeter' | 'donor-switch';
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
  /** 0 a question or a look, 1 a reading, 2 taking apart or exchanging. */
  readonly effort: 0 | 1 | 2;
};

/** Minutes of a look at a load while the key stands there anyway (estimate: practice table, position table 2 to 4 min). */
const look_min = 0.4;
/** Extra minutes when the starter has to turn, for the caution taken (estimate). */
const start_min = 1;

const startCaution = 'out of gear, wheels chocked, hands clear: the starter turns';

/**
 * Everything that could be seen or read in a scene of this vehicle with these tools: each load and the engine in each
 * key position, volts to ground at every terminal and drops across every piece under the load of each consumer, current
 * at the battery, bare contacts, exchanges and touches of the parts named.
 *
 * @param suspected  parts for which taking apart, moving and exchanging is worth a thought
 */
export function candidates(predictor: Predictor, tools: readonly Tool[], suspected: readonly string[]): readonly Candidate[] {
  const { circuit } = predictor;
  const found: Candidate[] = [];
  const needs = tableNeeds(circuit);
  const loads = loadsOf(circuit.parts.values());
  const places = keyPlaces(circuit.parts.values());
  const cranked = new Set(
    places.filter(({ key }) =>
      predictor.solve([], scene(key, crankHand())).loads.some((l) => l.id === circuit.engine?.crank && l.verdict !== 'dead'),
    ),
  );
  function crankHand(): Hand {
    return needs.get(circuit.engine?.crank ?? '') ?? {};
  }
  const hands = new Map(loads.map((l) => [JSON.stringify(needs.get(l.id) ?? {}), needs.get(l.id) ?? {}]));
  if (hands.size === 0) hands.set('{}', {});
  for (const place of places) {
    const starts = cranked.has(place);
    const extra = starts ? start_min : 0;
    const cautions = starts ? [startCaution] : [];
    if (circuit.engine)
      found.push({
        scene: scene(place.key, crankHand()),
        observable: { of: 'engine' },
        minutes: look_min + extra,
        price: 0,
        cautions,
        effort: 0,
      });
    for (const hand of hands.values()) {
      const here = scene(place.key, hand);
      const key = JSON.stringify(hand);
      for (const load of loads)
        if (JSON.stringify(needs.get(load.id) ?? {}) === key)
          found.push({ scene: here, observable: { of: 'load', load: load.id }, minutes: look_min + extra, price: 0, cautions, effort: 0 });
      if (tools.includes('meter')) found.push(...meterReadings(predictor, here, extra, cautions));
    }
  }
  if (tools.includes('clamp')) found.push(...keyOffCurrent(predictor, places));
  for (const id of suspected) {
    const part = circuit.parts.get(id);
    if (part) found.push(...handsOn(part, tools, places));
  }
  return found;
}

type Place = { readonly name: string; readonly key: KeyPlace | undefined };

function keyPlaces(parts: Iterable<Part>): readonly Place[] {
  const part = [...parts].find((p) => p.kind.key !== undefined);
  if (!part?.kind.key) return [{ name: '', key: undefined }];
  const model = part.kind.key(part);
  const up = keyStretches(model).map((s): Place => ({ name: s.name, key: { angle: s.keyAngle, came: 'up', in: true } }));
  const back = model.positions.flatMap((p): Place[] => {
    const home = model.positions.find((q) => q.name === p.springsTo);
    return home ? [{ name: `${home.name} after ${p.name}`, key: { angle: home.angle, came: 'back', in: true } }] : [];
  });
  return [...up, ...back];
}

const scene = (key: KeyPlace | undefined, hand: Hand): Scene => ({
  ...(key && { key }),
  hand,
  engine: 'stopped',
  apart: [],
  bridged: [],
  swapped: [],
});

function meterReadings(predictor: Predictor, here: Scene, extra: number, cautions: readonly string[]): readonly Candidate[] {
  const { circuit } = predictor;
  const list: Candidate[] = [];
  for (const part of circuit.parts.values()) {
    if (part.kind.isWire) continue;
    const access = part.kind.access(part);
    const base = { scene: here, price: 0, cautions: [...cautions, ...(access.caution ? [access.caution] : [])], effort: 1 as const };
    const terminals = part.kind.terminals(part).map((t) => `${part.id}.${t.name}`);
    for (const at of terminals.filter((t) => firstOfNode(predictor, t)))
      list.push({ ...base, observable: { of: 'volts', at, to: 'ground', instrument: 'meter' }, minutes: access.minutes + extra });
    const poles = part.kind.poles(part).map((p) => [`${part.id}.${p.from}`, `${part.id}.${p.to}`] as const);
    for (const [at, to] of poles)
      if (terminals.includes(at) && terminals.includes(to))
        list.push({ ...base, observable: { of: 'volts', at, to, instrument: 'meter' }, minutes: access.minutes + 1 + extra });
  }
  return list;
}

/** Terminals fastened together read the same: the one that is quickest to reach stands for all. */
function firstOfNode(predictor: Predictor, terminal: string): boolean {
  const { nodeOf } = predictor.healthy;
  let best = firsts.get(nodeOf);
  if (!best) {
    best = new Map<number, { terminal: string; minutes: number }>();
    for (const part of predictor.circuit.parts.values()) {
      if (part.kind.isWire) continue;
      const { minutes } = part.kind.access(part);
      for (const t of part.kind.terminals(part)) {
        const node = nodeOf.get(`${part.id}.${t.name}`)!;
        const before = best.get(node);
        if (before === undefined || minutes < before.minutes) best.set(node, { terminal: `${part.id}.${t.name}`, minutes });
      }
    }
    firsts.set(nodeOf, best);
  }
  return best.get(nodeOf.get(terminal)!)?.terminal === terminal;
}
const firsts = new WeakMap<ReadonlyMap<string, number>, Map<number, { terminal: string; minutes: number }>>();

/** Current at the battery's minus with the key at its first place and everything at rest. */
function keyOffCurrent(predictor: Predictor, places: readonly Place[]): readonly Candidate[] {
  for (const part of predictor.circuit.parts.values()) {
    const ends = part.kind.supply?.(part);
    if (!ends) continue;
    const observable: Observable = { of: 'amperes', at: `${part.id}.${ends[1]}`, instrument: 'clamp' };
    return [
      { scene: scene(places[0]!.key, {}), observable, minutes: 3, price: 0, cautions: ['let the modules fall asleep first'], effort: 1 },
    ];
  }
  return [];
}

function handsOn(part: Part, tools: readonly Tool[], places: readonly Place[]): readonly Candidate[] {
  const access = part.kind.access(part);
  const cautions = access.caution ? [access.caution] : [];
  const rest = scene(places[0]!.key, {});
  const list: Candidate[] = [
    { scene: rest, observable: { of: 'touch', part: part.id, how: 'wiggled' }, minutes: access.minutes + 1, price: 0, cautions, effort: 1 },
  ];
  if (part.kind.key && tools.includes('donor-switch'))
    list.push({
      scene: rest,
      observable: { of: 'exchange', part: part.id, how: 'swapped' },
      minutes: access.minutes + 5,
      price: 0,
      cautions,
      effort: 2,
    });
  if (part.kind.key && tools.includes('ohmmeter')) {
    const model = part.kind.key(part);
    for (const c of model.contacts) {
      const [a, b] = c.id.split('-');
      for (const p of model.positions)
        list.push({
          scene: rest,
          observable: { of: 'ohms', part: part.id, at: `${part.id}.${a}`, to: `${part.id}.${b}`, angle: p.angle },
          minutes: access.minutes + 20,
          price: 0,
          cautions: [...cautions, 'disconnect the battery before unplugging an unfused feed'],
          effort: 2,
        });
    }
  }
  return list;
}

/** The same thing in the same scene was seen already. */
export function alreadySeen(candidate: Candidate, findings: readonly Finding[]): boolean {
  const key = JSON.stringify([candidate.scene, candidate.observable]);
  return findings.some((f) => JSON.stringify([f.scene, f.observable]) === key);
}
