import type { Part } from '../circuit/part.ts';
import type { Condition } from '../circuit/scene.ts';

/** The condition of a part that nobody touched, in a vehicle that stands. Worked out once a part, so its state is the same object every time. */
export function atRest(part: Part, ambient: number): Condition {
  const known = rests.get(part);
  if (known?.ambient === ambient) return known;
  const rest: Condition = {
    key: undefined,
    setting: part.kind.settings?.(part)[0] ?? '',
    engine: 'stopped',
    ambient,
    state: part.kind.initial?.(part) ?? {},
  };
  rests.set(part, rest);
  return rest;
}
const rests = new WeakMap<Part, Condition>();
