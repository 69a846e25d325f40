import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import type { Part } from '../circuit/part.ts';
import { remembered } from '../circuit/remembered.ts';
import type { Scene } from '../circuit/scene.ts';
import type { OperatingPoint } from './operatingPoint.ts';
import { allWays, currentPaths, type Passed } from './paths.ts';
import { tableNeeds } from './tableNeeds.ts';

/**
 * Whether a load's current comes or goes by an element, or in a direction, that is none of its usual ways.
 *
 * @param usual  the healthy vehicle as this load is asked for, in every key position and as it stands now
 */
export function comesOtherWay(at: OperatingPoint, load: Part, usual: Iterable<OperatingPoint>): boolean {
  const paths = currentPaths(at, load);
  const passed = [...paths.feed.elements, ...paths.return.elements];
  return passed.length > 0 && passed.some((e) => ![...usual].some((healthy) => waysIn(healthy, load).has(nameOf(e))));
}

/** The scenes in which a load's usual ways show: switched on as it is asked for, in every key position that is reached from below. */
export function scenesAsked(circuit: Circuit, scene: Scene, load: string): readonly Scene[] {
  const hand = { ...scene.hand, ...tableNeeds(circuit).get(load) };
  const part = [...circuit.parts.values()].find((p) => p.kind.key !== undefined);
  if (!part?.kind.key) return [{ ...scene, hand }];
  return keyStretches(part.kind.key(part)).map((s) => ({ ...scene, hand, key: { angle: s.keyAngle, came: 'up', in: true } }));
}

const ways = new WeakMap<OperatingPoint, Map<string, ReadonlySet<string>>>();
const waysIn = (at: OperatingPoint, load: Part): ReadonlySet<string> =>
  remembered(
    remembered(ways, at, () => new Map<string, ReadonlySet<string>>()),
    load.id,
    () => new Set(allWays(at, load).map(nameOf)),
  );

const nameOf = ({ id, forwards }: Passed): string => `${id} ${forwards}`;
