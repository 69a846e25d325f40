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

/** What no instant changes, filled in once a network; what the scene decides, filled in for the scene that was asked last. */
type Known = {
  readonly still: BranchValues;
  readonly withScene: readonly Member[];
  readonly withState: readonly Member[];
  scene: Scene | undefined;
  inScene: BranchValues;
};

const known = new WeakMap<Network, Known>();

/** Asks every part what its branches are in this scene and these states. Cost: a copy, and one question for each part that varies with what is new. */
export function branchValues(network: Network, scene: Scene, states: States): BranchValues {
  const mine = remembered(known, network, () => firstKnown(network, scene, states));
  if (mine.scene !== scene) {
    mine.scene = scene;
    mine.inScene = filled(mine.still, network, mine.withScene, scene, states);
  }
  return filled(mine.inScene, network, mine.withState, scene, states);
}

function firstKnown(network: Network, scene: Scene, states: States): Known {
  const many = network.branches.length;
  const nothing = { siemens: new Float64Array(many), push: new Float64Array(many), laws: [] };
  const withState = network.members.filter((m) => m.varies && m.part.kind.varies?.includes('state'));
  const withScene = network.members.filter((m) => m.varies && !withState.includes(m));
  const fixed = network.members.filter((m) => !m.varies);
  const still = filled(nothing, network, fixed, scene, states);
  return { still, withScene, withState, scene: undefined, inScene: still };
}

function filled(base: BranchValues, network: Network, members: readonly Member[], scene: Scene, states: States): BranchValues {
  const values = { siemens: base.siemens.slice(), push: base.push.slice(), laws: base.laws.slice() };
  for (const member of members) fill(values, member, member.values(conditionOf(network, member, scene, states)));
  return values;
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
