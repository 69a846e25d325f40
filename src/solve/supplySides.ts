import type { Circuit } from '../circuit/circuit.ts';
import { nameOfOwn } from '../circuit/ownerOf.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { network } from './network.ts';
import { operatingPoint } from './operatingPoint.ts';

/** The two ends of all batteries together: the one that is live whatever is switched, and the one on the body's side. */
export type SupplySides = { readonly live: string; readonly grounded: string };

const known = new WeakMap<Circuit, SupplySides | null>();

/**
 * Where a vehicle is always live, and where all of its current returns: of the batteries' terminals the one furthest
 * from the reference and the one nearest to it, in volts at rest. So positive ground and batteries in series come out
 * right. Without a battery the other supplies are looked at; undefined when there is none.
 *
 * Cost: one solve, once for each circuit.
 */
export function supplySides(circuit: Circuit): SupplySides | undefined {
  const before = known.get(circuit);
  if (before !== undefined) return before ?? undefined;
  const all = [...circuit.parts.values()].filter((p) => p.kind.supply?.(p) !== undefined);
  const parts = all.some((p) => p.kind.store) ? all.filter((p) => p.kind.store) : all;
  const terminals = parts.flatMap((p) => p.kind.supply!(p)!.map((t) => nameOfOwn(p.id, t)));
  const found = terminals.length === 0 ? null : furthest(circuit, terminals);
  known.set(circuit, found);
  return found ?? undefined;
}

function furthest(circuit: Circuit, terminals: readonly string[]): SupplySides {
  const at = operatingPoint(network(circuit), restScene(circuit));
  // Also of what floats: behind an open isolator the batteries still stand above one another.
  const { nodeOf, offsetOf } = at.network;
  const away = (t: string): number => Math.abs(at.nodeVolts[nodeOf.get(t)!]! + (offsetOf.get(t) ?? 0));
  return {
    live: terminals.reduce((best, t) => (away(t) > away(best) ? t : best)),
    grounded: terminals.reduce((best, t) => (away(t) <= away(best) ? t : best)),
  };
}
