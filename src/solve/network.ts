import type { Circuit } from '../circuit/circuit.ts';
import type { Element } from '../circuit/element.ts';
import type { Change, Part } from '../circuit/part.ts';
import { type Condition, type Scene, untouched } from '../circuit/scene.ts';
import type { Pattern } from './eliminationPattern.ts';
import { laidOut } from './layout.ts';
import { overlaid } from './overlaid.ts';
import type { ValuesAt } from './partValues.ts';

export { atRest } from './atRest.ts';
export { SourceLoop } from './joined.ts';

/** One change to one part, as a fault makes it. */
export type PartChange = { readonly part: string; readonly change: Change };

/** What is taken out, joined or exchanged by hand: it decides which terminals are one node, so it belongs to the network, not to the instant. */
export type Setup = Pick<Scene, 'apart' | 'bridged' | 'swapped'>;

/** An element with its place in the network. `from`/`to` are node numbers; `offset` = volts of its first end above its node minus the same of its second. */
export type Branch = {
  readonly id: string;
  readonly part: string;
  readonly is: 'resistance' | 'source' | 'current' | 'law';
  readonly from: number;
  readonly to: number;
  readonly fromTerminal: string;
  readonly toTerminal: string;
  readonly offset: number;
};

/** A part of the network, after its faults. What a fault or a jumper lead adds to the wiring is a member of its own. */
export type Member = {
  readonly part: Part;
  /** Elements for a condition, with the names of the whole circuit; same ids and ends every time. */
  readonly elements: (at: Condition) => readonly Element[];
  /** Numbers of its branches in a condition; the solver asks for these. */
  readonly values: ValuesAt;
  /** Index of its first branch. */
  readonly first: number;
  readonly count: number;
  /** False when nothing of an instant touches its elements. */
  readonly varies: boolean;
};

/**
 * A circuit with a set of changes in it, laid out for solving: terminals joined ideally are one node, every element
 * is a branch, and the elimination is worked out once for every scene. Immutable.
 */
export type Network = {
  readonly circuit: Circuit;
  readonly changes: readonly PartChange[];
  readonly setup: Setup;
  readonly members: readonly Member[];
  /** Places of the members that are not those of the sound layout which this one lies over, and of those that it adds; absent where it lies over none. */
  readonly other?: readonly number[];
  readonly branches: readonly Branch[];
  /** From and to of every branch, two entries each, and their offsets: numbers side by side for the solver. */
  readonly pairs: Int32Array;
  readonly offsets: Float64Array;
  readonly branchOf: ReadonlyMap<string, number>;
  readonly pattern: Pattern;
  /** Terminal or inner node -> node number. */
  readonly nodeOf: ReadonlyMap<string, number>;
  /** Terminal -> volts above its node; only where an exact source joins two nodes. */
  readonly offsetOf: ReadonlyMap<string, number>;
  /** Name of the node that is 0 V: `ground` where anything is fastened to it, else the first supply's minus. */
  readonly reference: string;
  /** Ideal joints and exact sources, for currents through them: each merges two terminals. */
  readonly joints: readonly Joint[];
};

export type Joint = { readonly id: string; readonly a: string; readonly b: string; readonly volt: number };

/**
 * Lays out a circuit for solving.
 *
 * Nearly every fault leaves the wiring's form as it is, or adds a branch to it: then the layout of the healthy circuit
 * in the same setup, which is kept, serves with the faulty part's own numbers in it.
 * Cost: near linear in parts for a new layout; for a fault in a known one, that of copying a list of branches at most.
 */
export function network(circuit: Circuit, changes: readonly PartChange[] = [], setup: Setup = untouched): Network {
  const sound = soundNetwork(circuit, setup);
  if (changes.length === 0) return sound;
  const counted = changes.filter((c) => !setup.swapped.includes(c.part) && !setup.apart.includes(c.part));
  return overlaid(sound, counted, changes) ?? { ...laidOut(circuit, counted, sound.setup), changes };
}

/** How many setups of one circuit are kept, those used last; a diagnosis tries many, one after the other, and comes back to the plain one always. */
const mostSetups = 48;
const soundNetworks = new WeakMap<Circuit, Map<string, Network>>();
function soundNetwork(circuit: Circuit, { apart, bridged, swapped }: Setup): Network {
  const known = soundNetworks.get(circuit) ?? new Map<string, Network>();
  soundNetworks.set(circuit, known);
  const key = JSON.stringify([apart, bridged]);
  const same = known.get(key);
  if (same) {
    known.delete(key);
    known.set(key, same);
  }
  if (same) return same.setup.swapped.length === 0 && swapped.length === 0 ? same : { ...same, setup: { apart, bridged, swapped } };
  const laid = laidOut(circuit, [], { apart, bridged, swapped });
  if (known.size >= mostSetups) known.delete(known.keys().next().value!);
  known.set(key, laid);
  return laid;
}
