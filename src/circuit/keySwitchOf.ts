import type { Circuit } from './circuit.ts';
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

/** The key taken out: at the first position that lets it go. It was turned back to there, which matters to a switch that follows badly. */
export function keyTakenOut(model: KeyModel): KeyPlace {
  const at = model.positions.find((p) => p.keyOut) ?? model.positions[0];
  return { angle: at?.angle ?? 0, came: 'back', in: false };
}
