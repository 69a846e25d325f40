import type { State } from '../circuit/scene.ts';
import { atRest, type Member } from '../solve/network.ts';
import { conditionOf, type OperatingPoint, type States } from '../solve/operatingPoint.ts';
import { sameState } from '../solve/partValues.ts';
import type { Port } from './ports.ts';

/** Every branch that follows a law in this scene, as a port that stands on its tangent. */
export function lawsIn(at: OperatingPoint): readonly Port[] {
  const found: Port[] = [];
  const { network: net } = at;
  for (const member of net.members) {
    if (!net.branches.slice(member.first, member.first + member.count).some((b) => b.is === 'law')) continue;
    const values = member.values(conditionOf(net, member, at.scene, at.states));
    for (let e = 0; e < member.count; e++) {
      const law = values.laws?.[e];
      if (!law) continue;
      const branch = member.first + e;
      const { from, to, offset } = net.branches[branch]!;
      const v0 = at.nodeVolts[from]! - at.nodeVolts[to]! + offset;
      found.push({ branch, index: branch, from, to, offset, v0, g0: at.siemens[branch]!, p0: at.push[branch]!, g1: 0, p1: 0, law });
    }
  }
  return found;
}

/** A part that settles into states, as a relay does, in one scene of the healthy vehicle. */
export type Stateful = {
  /** Its place among the network's members. */
  readonly index: number;
  readonly nodes: readonly number[];
  /** State in which the solve began. */
  readonly began: State;
  /** Its state is not that one any more. */
  readonly differs: boolean;
};

/** @param start states in which the solve began; what is missing began as never switched on */
export function statefulIn(at: OperatingPoint, start: States | undefined): readonly Stateful[] {
  const { network: net } = at;
  return [...net.members.entries()].flatMap(([index, { part, first, count }]: [number, Member]) => {
    if (!part.kind.settle) return [];
    const began = start?.get(part.id) ?? atRest(part, net.circuit.ambient).state;
    const own = net.branches.slice(first, first + count).flatMap((b) => [b.from, b.to]);
    return [{ index, nodes: [...new Set(own)], began, differs: !sameState(began, at.states.get(part.id) ?? began) }];
  });
}
