import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf, keyTakenOut } from '../circuit/keySwitchOf.ts';
import type { Scene } from '../circuit/scene.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { network, type PartChange } from '../solve/network.ts';
import { type OperatingPoint, operatingPoint } from '../solve/operatingPoint.ts';
import { currentPaths } from '../solve/paths.ts';
import { type Taken, takenAt } from './taken.ts';

/** Who draws current with the key out. */
export type Draw = {
  readonly part: string;
  readonly amperes: number;
  /** What it draws in the healthy vehicle. */
  readonly expected: number;
  /** Terminals from the battery to it. */
  readonly feed: readonly string[];
  /** The fuse that carries it, the one nearest to it; undefined when none does. */
  readonly fuse: string | undefined;
};

export type KeyOff = {
  /** Out of the battery and through its cable, A; a clamp round it reads this. */
  readonly amperes: number;
  readonly draws: readonly Draw[];
  /** What goes round inside the battery itself, over its dirty top, and no clamp sees, A. */
  readonly inside: number;
  readonly at: OperatingPoint;
};

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
  const taken = takenAt(at);
  const sound = changes.length === 0 ? taken : takenAt(operatingPoint(network(circuit, [], { apart, bridged, swapped }), scene));
  return { amperes: taken.amperes, draws: drawsOf(at, taken, sound), inside: taken.inside, at };
}

/** The list of draws, largest first, beside what the healthy vehicle draws. */
export function drawsOf(at: OperatingPoint, taken: Taken, sound: Taken): readonly Draw[] {
  const draws = [...taken.byPart].flatMap(([id, amperes]): readonly Draw[] => {
    if (amperes < leastListed) return [];
    const { terminals, fuse } = feedOf(at, id);
    return [{ part: id, amperes, expected: sound.byPart.get(id) ?? 0, feed: terminals, fuse }];
  });
  return draws.sort((a, b) => b.amperes - a.amperes || (a.part < b.part ? -1 : 1));
}

/** The way to a part's hungriest element, and the fuse on it: in the feed, or in the return where plus is grounded. */
function feedOf(at: OperatingPoint, id: string): { readonly terminals: readonly string[]; readonly fuse: string | undefined } {
  const { network: net } = at;
  const part = net.circuit.parts.get(id);
  let best: { from: string; to: string; watts: number } | undefined;
  for (const [k, b] of net.branches.entries()) {
    if (b.part !== id) continue;
    const watts = (at.nodeVolts[b.from]! - at.nodeVolts[b.to]! + b.offset) * at.amperes[k]!;
    if (watts > (best?.watts ?? 0)) best = { from: b.fromTerminal, to: b.toTerminal, watts };
  }
  if (!part || !best) return { terminals: [], fuse: undefined };
  const own = (t: string) => (t.startsWith(`${id}.`) ? t.slice(id.length + 1) : t);
  const ends = [own(best.from), own(best.to)] as const;
  const { feed, return: back } = currentPaths(at, { ...part, kind: { ...part.kind, loadEnds: () => ends } });
  const isFuse = (e: { readonly id: string }) => net.circuit.parts.get(e.id)?.kind.shunt !== undefined;
  const fuse = feed.elements.filter(isFuse).at(-1) ?? back.elements.find(isFuse);
  return { terminals: feed.terminals, fuse: fuse?.id };
}
