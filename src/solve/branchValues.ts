import type { Law } from '../circuit/element.ts';
import { remembered } from '../circuit/remembered.ts';
import type { Scene } from '../circuit/scene.ts';
import type { Member, Network } from './network.ts';
import type { States } from './operatingPoint.ts';
import type { Values } from './partValues.ts';
import { conditionOf } from './reading.ts';

/** The numbers of every branch at an instant: amperes = siemens·volts + push, but for those that follow a law. */
export type BranchValues = {
  readonly siemens: Float64Array;
  readonly push: Float64Array;
  readonly laws: readonly LawBranch[];
};

export type LawBranch = { readonly branch: number; readonly law: Law };

/** What no instant changes, filled in once a network; what the scene decides, filled in for the scene that was asked last; all of it. */
type Known = {
  readonly still: Filling;
  readonly withScene: readonly Member[];
  readonly withState: readonly Member[];
  readonly inScene: Filling;
  readonly all: Filling;
  scene: Scene | undefined;
};

type Filling = { readonly siemens: Float64Array; readonly push: Float64Array; readonly laws: LawBranch[] };

const known = new WeakMap<Network, Known>();

/**
 * Asks every part what its branches are in this scene and these states. The answer stands in arrays that the next call
 * for this network writes over.
 * Cost: a copy, and one question for each part that varies with what is new.
 */
export function branchValues(network: Network, scene: Scene, states: States): BranchValues {
  const mine = remembered(known, network, () => firstKnown(network, scene, states));
  if (mine.scene !== scene) {
    mine.scene = scene;
    copy(mine.still, mine.inScene);
    for (const member of mine.withScene) fill(mine.inScene, member, member.values(conditionOf(network, member, scene, states)));
  }
  copy(mine.inScene, mine.all);
  for (const member of mine.withState) fill(mine.all, member, member.values(conditionOf(network, member, scene, states)));
  return mine.all;
}

function firstKnown(network: Network, scene: Scene, states: States): Known {
  const many = network.branches.length;
  const filling = (): Filling => ({ siemens: new Float64Array(many), push: new Float64Array(many), laws: [] });
  const still = filling();
  const withState: Member[] = [];
  const withScene: Member[] = [];
  for (const member of network.members) {
    if (!member.varies) fill(still, member, member.values(conditionOf(network, member, scene, states)));
    else if (member.part.kind.varies?.includes('state')) withState.push(member);
    else withScene.push(member);
  }
  return { still, withScene, withState, inScene: filling(), all: filling(), scene: undefined };
}

function copy(from: Filling, to: Filling): void {
  to.siemens.set(from.siemens);
  to.push.set(from.push);
  to.laws.length = 0;
  for (const law of from.laws) to.laws.push(law);
}

function fill(into: Filling, { first, count }: Member, { siemens, push, laws }: Values): void {
  for (let e = 0; e < count; e++) {
    into.siemens[first + e] = siemens[e]!;
    into.push[first + e] = push[e]!;
    const law = laws?.[e];
    if (law) into.laws.push({ branch: first + e, law });
  }
}
