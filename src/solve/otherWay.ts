import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Part } from '../circuit/part.ts';
import type { Scene } from '../circuit/scene.ts';
import { loadAt } from './loads.ts';
import type { OperatingPoint } from './operatingPoint.ts';
import { allWays, currentPaths, type Passed } from './paths.ts';
import { tableNeeds } from './tableNeeds.ts';

/** Names of the elements, with their directions, by which a load's current comes or goes at any of these instants. */
export type UsualWays = ReadonlySet<string>;

/** @param points  the healthy vehicle as this load is asked for, in every key position and as it stands now */
export function usualWays(points: readonly OperatingPoint[], load: Part): UsualWays {
  return new Set(points.flatMap((at) => allWays(at, load).map(nameOf)));
}

/** Whether the current of a load that is not dead comes or goes by an element, or in a direction, that is none of its usual ways. */
export function comesOtherWay(at: OperatingPoint, load: Part, usual: UsualWays): boolean {
  if (loadAt(at, load.id)?.verdict === 'dead') return false;
  const paths = currentPaths(at, load);
  const isOdd = (e: Passed) => !usual.has(nameOf(e));
  return paths.feed.elements.some(isOdd) || paths.return.elements.some(isOdd);
}

/** The scenes in which a load's usual ways show: switched on as it is asked for, in every key position that is reached from below. */
export function scenesAsked(circuit: Circuit, scene: Scene, load: string): readonly Scene[] {
  const hand = { ...scene.hand, ...tableNeeds(circuit).get(load) };
  const lock = keySwitchOf(circuit);
  if (!lock) return [{ ...scene, hand }];
  return keyStretches(lock.model).map((s) => ({ ...scene, hand, key: { angle: s.keyAngle, came: 'up', in: true } }));
}

const nameOf = ({ id, forwards }: Passed): string => `${id} ${forwards}`;
