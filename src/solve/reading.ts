import type { Circuit } from '../circuit/circuit.ts';
import type { Reading } from '../circuit/element.ts';
import { nameOfOwn } from '../circuit/ownerOf.ts';
import { remembered } from '../circuit/remembered.ts';
import type { Condition, Scene } from '../circuit/scene.ts';
import { atRest } from './atRest.ts';
import type { Member, Network } from './network.ts';
import type { OperatingPoint, States } from './operatingPoint.ts';

/** The member of a part. */
export function memberOf(network: Network, part: string): Member | undefined {
  const place = placeOf(network, part);
  return place === undefined ? undefined : network.members[place];
}

/** Index of a part's member; found out once for a layout and all that lies over it. */
export function placeOf({ circuit, members, nodeOf }: Network, part: string): number | undefined {
  const places = remembered(byPart, nodeOf, () => {
    const own = [...members.entries()].filter(([, m]) => circuit.parts.has(m.part.id));
    return new Map(own.map(([place, m]) => [m.part.id, place]));
  });
  return places.get(part);
}
const byPart = new WeakMap<Network['nodeOf'], ReadonlyMap<string, number>>();

/** What the scene asks of a part. */
export function conditionOf(network: Network, member: Member, scene: Scene, states: States): Condition {
  const rest = atRest(member.part, network.circuit.ambient);
  const { id } = member.part;
  return {
    key: scene.key,
    setting: scene.hand[id] ?? rest.setting,
    engine: scene.engine,
    ambient: rest.ambient,
    state: states.get(id) ?? rest.state,
  };
}

/** `ampereIn`: amperes of one branch, where that is less work than all of them. */
type Readable = Pick<OperatingPoint, 'network' | 'nodeVolts' | 'floats' | 'amperes' | 'ampereIn'>;

/** What a part may ask of a solved instant: volts between its own terminals, amperes through its own elements (worked out only when asked for). */
export function readingOf(at: Readable, part: string): Reading {
  const { network, nodeVolts, floats } = at;
  const wide = widening(network, part);
  const volts = (t: string): number | undefined => {
    const terminal = wide(t);
    const node = network.nodeOf.get(terminal);
    return node === undefined || floats[node] === 1 ? undefined : nodeVolts[node]! + (network.offsetOf.get(terminal) ?? 0);
  };
  return {
    across: (first, second) => {
      const [a, b] = [volts(first), volts(second)];
      return a === undefined || b === undefined ? 0 : a - b;
    },
    amperes: (element) => {
      const k = network.branchOf.get(element === '' ? part : wide(element));
      return k === undefined ? 0 : (at.ampereIn?.(k) ?? at.amperes[k]!);
    },
  };
}

/** Local name -> name in the whole circuit, each put together once a circuit: readings are taken thousands of times. */
const wideNames = new WeakMap<Circuit, Map<string, Map<string, string>>>();
function widening({ circuit }: Network, part: string): (local: string) => string {
  const names = remembered(
    remembered(wideNames, circuit, () => new Map()),
    part,
    () => new Map(),
  );
  return (local) => remembered(names, local, () => nameOfOwn(part, local));
}
