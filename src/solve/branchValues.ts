import type { Law } from '../circuit/element.ts';
import type { Scene } from '../circuit/scene.ts';
import type { Member, Network } from './network.ts';
import type { States } from './operatingPoint.ts';
import type { Values } from './partValues.ts';
import { conditionOf } from './reading.ts';
import { remembered } from './remembered.ts';

/** The numbers of every branch at an instant: amperes = siemens·volts + push, but for those that follow a law. */
export type BranchValues = {
  readonly siemens: Float64Array;
  readonly push: Float64Array;
  readonly laws: readonly LawBranch[];
};

export type LawBranch = { readonly branch: number; readonly law: Law };

/** What no instant changes, filled in once a network, and the members that still have to be asked. */
type Still = BranchValues & { readonly varying: readonly Member[] };

const stills = new WeakMap<Network, Still>();

/** Asks every part what its branches are in this scene and these states. Cost: a copy, and one question for each part that varies. */
export function branchValues(network: Network, scene: Scene, states: States): BranchValues {
  const still = remembered(stills, network, () => stillOf(network, scene, states));
  const values = { siemens: still.siemens.slice(), push: still.push.slice(), laws: still.laws.slice() };
  for (const member of still.varying) fill(values, member, member.values(conditionOf(network, member, scene, states)));
  return values;
}

function stillOf(network: Network, scene: Scene, states: States): Still {
  const many = network.branches.length;
  const values = { siemens: new Float64Array(many), push: new Float64Array(many), laws: [] as LawBranch[] };
  const varying: Member[] = [];
  for (const member of network.members) {
    if (member.varies) varying.push(member);
    else fill(values, member, member.values(conditionOf(network, member, scene, states)));
  }
  return { ...values, varying };
}

function fill(
  into: { siemens: Float64Array; push: Float64Array; laws: LawBranch[] },
  { first, count }: Member,
  { siemens, push, laws }: Values,
): void {
  for (let e = 0; e < count; e++) {
    into.siemens[first + e] = siemens[e]!;
    into.push[first + e] = push[e]!;
    const law = laws?.[e];
    if (law) into.laws.push({ branch: first + e, law });
  }
}
