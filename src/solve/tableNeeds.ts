import type { Circuit } from '../circuit/circuit.ts';
import { readHand } from '../circuit/handPhrase.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Part } from '../circuit/part.ts';
import { remembered } from '../circuit/remembered.ts';
import { type KeyPlace, type Scene, untouched } from '../circuit/scene.ts';
import { loadsAt, loadsOf } from './loads.ts';
import { type Network, network } from './network.ts';
import { operatingPoint } from './operatingPoint.ts';

/** What has to be switched on so that a load could work: part id -> setting. Empty for a load that the key alone feeds. */
export type Hand = Readonly<Record<string, string>>;

type Action = readonly [part: string, setting: string];

/** Switches looked at together when one alone does not bring a load to life. */
const nearest = 6;

const known = new WeakMap<Circuit, ReadonlyMap<string, Hand>>();

/**
 * For every load, the hand actions that its row of the position table assumes: "if this load were switched on".
 * Found by trying on the healthy circuit: nothing, every single action, and for loads still dead every pair among the
 * switches nearest to them, then of one of these and any other; the choice that lets the load work in most key
 * positions wins, with fewer actions first. What a load's file says (`with: [S2 at 2]`) goes before all trying.
 *
 * Cost: once per circuit, about one solve for each setting and key position; for a load that no single one wakes, and that no
 * pair of near ones does, one for each pair of a near and another setting and key position as well.
 */
export function tableNeeds(circuit: Circuit): ReadonlyMap<string, Hand> {
  const before = known.get(circuit);
  if (before) return before;
  const net = network(circuit);
  const loads = loadsOf(circuit.parts.values());
  const keys = keyPlaces(circuit);
  const best = new Map<string, { hand: Hand; positions: number }>();
  for (const load of loads) {
    const written = writtenNeeds(load, circuit);
    best.set(load.id, { hand: written ?? {}, positions: written ? Number.POSITIVE_INFINITY : 0 });
  }
  // Loads behind the same switches try the same pairs of them.
  const tried = new Map<string, ReadonlyMap<string, number>>();
  const attempt = (actions: readonly Action[], candidates: readonly Part[]) => {
    const hand = Object.fromEntries(actions);
    const works = remembered(tried, JSON.stringify(hand), () => {
      const positions = new Map<string, number>();
      for (const key of keys)
        for (const seen of loadsAt(operatingPoint(net, sceneWith(key, hand))))
          if (seen.verdict === 'works') positions.set(seen.id, (positions.get(seen.id) ?? 0) + 1);
      return positions;
    });
    for (const { id } of candidates) {
      const positions = works.get(id) ?? 0;
      if (positions > best.get(id)!.positions) best.set(id, { hand, positions });
    }
  };
  const switches = [...circuit.parts.values()].filter((p) => (p.kind.settings?.(p).length ?? 0) > 1);
  attempt([], loads);
  for (const action of switches.flatMap(actionsOf)) attempt([action], loads);
  for (const load of loads) {
    if (best.get(load.id)!.positions > 0) continue;
    const near = nearestSwitches(net, load, switches);
    for (const pair of near.flatMap((one, k) => near.slice(k + 1).flatMap((other) => pairsOf(one, other)))) {
      if (best.get(load.id)!.positions >= keys.length) break; // no pair can do better
      attempt(pair, [load]);
    }
    // A main switch with many others behind it stands as near as they do, and may not be among the nearest.
    const far = best.get(load.id)!.positions > 0 ? [] : switches.filter((s) => !near.includes(s));
    for (const pair of near.flatMap((one) => far.flatMap((other) => pairsOf(one, other)))) {
      if (best.get(load.id)!.positions >= keys.length) break;
      attempt(pair, [load]);
    }
  }
  const needs = new Map([...best].map(([id, { hand }]) => [id, hand]));
  known.set(circuit, needs);
  return needs;
}

function writtenNeeds(load: Part, circuit: Circuit): Hand | undefined {
  if (load.needs === undefined) return undefined;
  const actions = load.needs.map((phrase) => readHand(phrase, circuit, `${load.id} with`));
  const settings = actions.flatMap((read) => (read.ok && read.value.does === 'set' ? read.value.settings : []));
  return Object.fromEntries(settings.map((s) => [s.part, s.setting]));
}

const actionsOf = (part: Part): readonly Action[] =>
  (part.kind.settings?.(part) ?? []).slice(1).map((setting) => [part.id, setting] as const);

const pairsOf = (one: Part, other: Part): readonly (readonly [Action, Action])[] =>
  actionsOf(one).flatMap((a) => actionsOf(other).map((b) => [a, b] as const));

/** The key at every detent, or one scene without a key. */
function keyPlaces(circuit: Circuit): readonly (KeyPlace | undefined)[] {
  const lock = keySwitchOf(circuit);
  if (!lock) return [undefined];
  return keyStretches(lock.model)
    .filter((s) => s.detent)
    .map(({ angle }) => ({ angle, came: 'up', in: true }));
}

const sceneWith = (key: KeyPlace | undefined, hand: Hand): Scene => ({ ...untouched, ...(key && { key }), hand });

/** Switches by their distance from the load along the wiring, not passing through the reference node. */
function nearestSwitches(net: Network, load: Part, switches: readonly Part[]): readonly Part[] {
  const ids = new Set(switches.map((s) => s.id));
  const found: string[] = [];
  const seen = new Set<number>([0]);
  let front = net.branches.filter((b) => b.part === load.id).flatMap((b) => [b.from, b.to]);
  while (front.length > 0 && found.length < nearest) {
    const next: number[] = [];
    for (const node of front) {
      if (seen.has(node)) continue;
      seen.add(node);
      for (const b of net.branches) {
        if (b.from !== node && b.to !== node) continue;
        if (ids.has(b.part) && !found.includes(b.part)) found.push(b.part);
        next.push(b.from === node ? b.to : b.from);
      }
    }
    front = next;
  }
  return found.slice(0, nearest).map((id) => switches.find((s) => s.id === id)!);
}
