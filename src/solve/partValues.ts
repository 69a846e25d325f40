import type { Element, Law } from '../circuit/element.ts';
import type { Part } from '../circuit/part.ts';
import { remembered } from '../circuit/remembered.ts';
import type { Condition, KeyPlace, State } from '../circuit/scene.ts';

/** The numbers of a part's branches at an instant, in the order of its elements. */
export type Values = {
  /** S; 0 = open, or a law. */
  readonly siemens: readonly number[];
  /** Current pushed from the first end to the second, A. */
  readonly push: readonly number[];
  /** Where the branch follows a law; absent when none does. */
  readonly laws?: readonly (Law | undefined)[];
};

export type ValuesAt = (at: Condition) => Values;

const plain = new WeakMap<Part, ValuesAt>();

/** The numbers of a part without faults: shared by every network that holds this very part. */
export function partValues(part: Part): ValuesAt {
  return remembered(plain, part, () => valuesOf(part, (at) => part.kind.elements(part, at)));
}

/** How many conditions a part remembers: a key switch meets a dozen in a table, others two. */
const mostConditions = 16;

/**
 * The numbers that a list of elements comes to. Kept for the conditions met last, as far as the kind says that they
 * matter to it; so a part that does not vary is asked once.
 */
export function valuesOf(part: Part, elements: (at: Condition) => readonly Element[]): ValuesAt {
  const same = sameness(part.kind.varies ?? []);
  const known: { readonly at: Condition; readonly values: Values }[] = [];
  return (at) => {
    for (const k of known) if (same(k.at, at)) return k.values;
    const values = numbersOf(elements(at));
    known.unshift({ at, values });
    if (known.length > mostConditions) known.pop();
    return values;
  };
}

function numbersOf(elements: readonly Element[]): Values {
  const laws = elements.map((e) => ('law' in e ? e.law : undefined));
  return {
    siemens: elements.map((e) => ('ohm' in e && e.ohm !== 0 ? 1 / e.ohm : 0)), // a joint of 0 Ω is merged into its node
    push: elements.map((e) => ('into' in e ? e.ampere : 'plus' in e && e.ohm !== 0 ? e.volt / e.ohm : 0)),
    ...(laws.some((law) => law !== undefined) && { laws }),
  };
}

/** Whether two are the same numbers; laws count as the same when they are the very same. */
export function sameValues(a: Values, b: Values): boolean {
  const same = <T>(one: readonly T[], other: readonly T[]) => one.length === other.length && one.every((item, k) => item === other[k]);
  return a === b || (same(a.siemens, b.siemens) && same(a.push, b.push) && same(a.laws ?? [], b.laws ?? []));
}

function sameness(varies: readonly string[]): (a: Condition, b: Condition) => boolean {
  const [key, hand, engine, state] = ['key', 'hand', 'engine', 'state'].map((what) => varies.includes(what));
  return (a, b) =>
    a.ambient === b.ambient &&
    (!key || samePlace(a.key, b.key)) &&
    (!hand || a.setting === b.setting) &&
    (!engine || a.engine === b.engine) &&
    (!state || sameState(a.state, b.state));
}

function samePlace(a: KeyPlace | undefined, b: KeyPlace | undefined): boolean {
  return a === b || (a !== undefined && b !== undefined && a.angle === b.angle && a.came === b.came && a.in === b.in);
}

/** Whether two states say the same. */
export function sameState(a: State | undefined, b: State | undefined): boolean {
  if (a === b) return true;
  if (a === undefined || b === undefined) return false;
  for (const name in a) if (a[name] !== b[name]) return false;
  for (const name in b) if (!(name in a)) return false;
  return true;
}
