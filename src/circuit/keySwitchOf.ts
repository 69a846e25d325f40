import type { Circuit } from './circuit.ts';
import { closedAt } from './keyStretches.ts';
import type { KeyModel, Part } from './part.ts';
import type { KeyPlace } from './scene.ts';

export type KeySwitch = { readonly part: Part; readonly model: KeyModel };

const known = new WeakMap<Circuit, KeySwitch | null>();

/** The circuit's key switch: the first part that can say where a key stands. A second one is turned by hand, not by the key. */
export function keySwitchOf(circuit: Circuit): KeySwitch | undefined {
  const before = known.get(circuit);
  if (before !== undefined) return before ?? undefined;
  for (const part of circuit.parts.values()) {
    if (part.kind.key === undefined) continue;
    const found = { part, model: part.kind.key(part) };
    known.set(circuit, found);
    return found;
  }
  known.set(circuit, null);
  return undefined;
}

/** The key in the lock at its first position: how a vehicle stands before anyone turned anything. */
export function restKey(model: KeyModel): KeyPlace {
  return { angle: model.positions[0]?.angle ?? 0, came: 'up', in: true };
}

/**
 * The key taken out: of the positions that let it go the one that leaves fewest contacts closed (a parking-lamp place
 * is not where a vehicle is left), the first of them. It was turned back to there, which matters to a switch that follows badly.
 */
export function keyTakenOut(model: KeyModel): KeyPlace {
  const free = model.positions.filter((p) => p.keyOut);
  const closed = ({ angle }: { readonly angle: number }) => closedAt(model, angle).length;
  const at = free.length === 0 ? model.positions[0] : free.reduce((best, p) => (closed(p) < closed(best) ? p : best));
  return { angle: at?.angle ?? 0, came: 'back', in: false };
}
