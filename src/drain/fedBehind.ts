import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { KeyPlace } from '../circuit/scene.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { loadAt, loadsOf } from '../solve/loads.ts';
import { network } from '../solve/network.ts';
import { operatingPoint } from '../solve/operatingPoint.ts';
import { currentPaths } from '../solve/paths.ts';
import { tableNeeds } from '../solve/tableNeeds.ts';

const known = new WeakMap<Circuit, ReadonlyMap<string, readonly string[]>>();

/**
 * Loads whose current passes each fuse, in some key position with the load switched on; the fuse nearest to the load
 * only. In file order.
 *
 * Cost: once a circuit, one solve for each load and key position.
 */
export function fedBehind(circuit: Circuit): ReadonlyMap<string, readonly string[]> {
  const before = known.get(circuit);
  if (before) return before;
  const net = network(circuit);
  const needs = tableNeeds(circuit);
  const found = new Map<string, string[]>();
  const isFuse = ({ id }: { readonly id: string }) => circuit.parts.get(id)?.kind.shunt !== undefined;
  for (const load of loadsOf(circuit.parts.values())) {
    const fuses = new Set<string>();
    for (const key of placesOf(circuit)) {
      const at = operatingPoint(net, { ...restScene(circuit), ...(key && { key }), hand: needs.get(load.id) ?? {} });
      if ((loadAt(at, load.id)?.verdict ?? 'dead') === 'dead') continue;
      const { feed, return: back } = currentPaths(at, load);
      const fuse = feed.elements.filter(isFuse).at(-1) ?? back.elements.find(isFuse);
      if (fuse) fuses.add(fuse.id);
    }
    for (const fuse of fuses) found.set(fuse, [...(found.get(fuse) ?? []), load.id]);
  }
  known.set(circuit, found);
  return found;
}

function placesOf(circuit: Circuit): readonly (KeyPlace | undefined)[] {
  const lock = keySwitchOf(circuit);
  if (!lock) return [undefined];
  return keyStretches(lock.model)
    .filter((s) => s.detent)
    .map((s): KeyPlace => ({ angle: s.keyAngle, came: 'up', in: true }));
}
