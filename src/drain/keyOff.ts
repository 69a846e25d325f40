import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf, keyTakenOut } from '../circuit/keySwitchOf.ts';
import type { Part } from '../circuit/part.ts';
import type { Scene } from '../circuit/scene.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { network, type PartChange } from '../solve/network.ts';
import { amperesInto, type OperatingPoint, operatingPoint } from '../solve/operatingPoint.ts';
import { currentPaths } from '../solve/paths.ts';

/** Who draws current with the key out. */
export type Draw = {
  readonly part: string;
  readonly amperes: number;
  /** What it draws in the healthy vehicle. */
  readonly expected: number;
  /** Terminals from the battery to it. */
  readonly feed: readonly string[];
  /** The fuse that carries it, if one does. */
  readonly fuse: string | undefined;
};

export type KeyOff = { readonly amperes: number; readonly draws: readonly Draw[]; readonly at: OperatingPoint };

/** The vehicle left standing: key out, everything at rest, every module asleep. */
export function keyOffScene(circuit: Circuit): Scene {
  const lock = keySwitchOf(circuit);
  return { ...restScene(circuit), ...(lock && { key: keyTakenOut(lock.model) }) };
}

/** Draws under this are left out of the list, A; they are still in the sum. */
const leastListed = 50e-6;

/**
 * Current that flows with the key out, once everything sleeps, and who draws it. A part's draw is the power that it
 * takes, over the volts of the battery: so the draws of all parts add up to the whole, by the balance of energy, and
 * no part has to be asked what it is.
 *
 * @param scene  the vehicle as it was left; door open, switch on, as you like
 */
export function keyOff(circuit: Circuit, changes: readonly PartChange[] = [], scene: Scene = keyOffScene(circuit)): KeyOff {
  const { apart, bridged, swapped } = scene;
  const at = operatingPoint(network(circuit, changes, { apart, bridged, swapped }), scene);
  const taken = watts(at);
  const sound = changes.length === 0 ? taken : watts(operatingPoint(network(circuit, [], { apart, bridged, swapped }), scene));
  const volts = supplyVolts(at);
  const supplies = new Set(suppliesOf(at).map((p) => p.id));
  const draws = [...taken].flatMap(([id, power]): readonly Draw[] => {
    const amperes = power / volts;
    if (supplies.has(id) || amperes < leastListed) return [];
    const feed = feedOf(at, id);
    return [{ part: id, amperes, expected: Math.max(0, (sound.get(id) ?? 0) / volts), feed: feed.terminals, fuse: feed.fuse }];
  });
  draws.sort((a, b) => b.amperes - a.amperes || (a.part < b.part ? -1 : 1));
  return { amperes: batteryAmperes(at), draws, at };
}

/** Current out of the supplies, A. */
export function batteryAmperes(at: OperatingPoint): number {
  return suppliesOf(at).reduce((most, p) => Math.max(most, -amperesInto(at, `${p.id}.${p.kind.supply!(p)![0]}`)), 0);
}

const suppliesOf = (at: OperatingPoint): readonly Part[] =>
  at.network.members.flatMap((m) => ((m.part.kind.store ?? m.part.kind.supply?.(m.part)) ? [m.part] : [])).filter((p) => gives(at, p));

function gives(at: OperatingPoint, part: Part): boolean {
  const ends = part.kind.supply?.(part);
  return ends !== undefined && amperesInto(at, `${part.id}.${ends[0]}`) < 0;
}

function supplyVolts(at: OperatingPoint): number {
  const volts = suppliesOf(at).map((p) => {
    const [plus, minus] = p.kind.supply!(p)!.map((t) => at.network.nodeOf.get(`${p.id}.${t}`)!);
    return Math.abs(at.nodeVolts[plus!]! - at.nodeVolts[minus!]!);
  });
  return Math.max(1e-3, ...volts);
}

/** Power taken by each part, W; what a fault adds to the wiring counts for the faulty part. */
function watts(at: OperatingPoint): ReadonlyMap<string, number> {
  const taken = new Map<string, number>();
  for (const [k, b] of at.network.branches.entries()) {
    const volts = at.nodeVolts[b.from]! - at.nodeVolts[b.to]! + b.offset;
    const owner = at.network.circuit.parts.has(b.part) ? b.part : (/^(.*?)\.?~/.exec(b.id)?.[1] ?? b.part);
    taken.set(owner, (taken.get(owner) ?? 0) + volts * at.amperes[k]!);
  }
  return taken;
}

/** The way to a part's hungriest element, and the fuse on it. */
function feedOf(at: OperatingPoint, id: string): { readonly terminals: readonly string[]; readonly fuse: string | undefined } {
  const { network: net } = at;
  const part = net.circuit.parts.get(id);
  let best: { from: string; to: string; watts: number } | undefined;
  for (const [k, b] of net.branches.entries()) {
    if (b.part !== id) continue;
    const power = (at.nodeVolts[b.from]! - at.nodeVolts[b.to]! + b.offset) * at.amperes[k]!;
    if (power > (best?.watts ?? 0)) best = { from: b.fromTerminal, to: b.toTerminal, watts: power };
  }
  if (!part || !best) return { terminals: [], fuse: undefined };
  const own = (t: string) => (t.startsWith(`${id}.`) ? t.slice(id.length + 1) : t);
  const ends = [own(best.from), own(best.to)] as const;
  const { feed } = currentPaths(at, { ...part, kind: { ...part.kind, loadEnds: () => ends } });
  const fuse = feed.elements.map((e) => e.id).find((e) => net.circuit.parts.get(e)?.kind.shunt !== undefined);
  return { terminals: feed.terminals, fuse };
}
