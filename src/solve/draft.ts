import type { Circuit } from '../circuit/circuit.ts';
import type { Element } from '../circuit/element.ts';
import { nameOfOwn } from '../circuit/ownerOf.ts';
import type { Change, Part } from '../circuit/part.ts';
import type { Condition } from '../circuit/scene.ts';
import { atRest } from './atRest.ts';
import { addedElements, ends, faultyElements, withParams } from './faultyElements.ts';
import type { Branch, Member, PartChange } from './network.ts';
import { partValues, valuesOf } from './partValues.ts';

/** A member before its branches have a place; its elements at rest stand for those of every condition. */
export type Draft = Pick<Member, 'part' | 'elements' | 'values' | 'varies'> & { readonly list: readonly Element[] };

/** A part with these changes in it, for the network. */
export function draftOf(part: Part, changes: readonly Change[], ambient: number): Draft {
  const changed = withParams(part, changes);
  const faulty = faultyElements(changed, changes);
  const own = faulty ?? ((at: Condition) => changed.kind.elements(changed, at));
  const elements = (at: Condition) => own(at).map((e) => widened(changed.id, e));
  const values = faulty ? valuesOf(changed, faulty) : partValues(changed);
  return { part: changed, elements, values, varies: (changed.kind.varies?.length ?? 0) > 0, list: elements(atRest(changed, ambient)) };
}

/** The element with names of the whole circuit; `ground` and `block` are everybody's. */
function widened(part: string, e: Element): Element {
  const name = (own: string) => nameOfOwn(part, own);
  const id = e.id === '' ? part : `${part}.${e.id}`;
  if ('plus' in e) return { ...e, id, plus: name(e.plus), minus: name(e.minus) };
  if ('into' in e) return { ...e, id, into: name(e.into), outOf: name(e.outOf) };
  return { ...e, id, from: name(e.from), to: name(e.to) };
}

/** Elements that belong to no part of the file. `id` must be nobody's part. */
export function loose(id: string, list: readonly Element[]): Draft {
  const part: Part = { id, kind: looseKind, params: {}, given: new Set(), isLoad: false };
  const elements = () => list;
  return { part, elements, values: valuesOf(part, elements), varies: false, list };
}

export const changesOf = (changes: readonly PartChange[], part: string) => changes.flatMap((c) => (c.part === part ? [c.change] : []));

/** What faults add to the wiring, in the order of the parts that have them. */
export function additions(circuit: Circuit, changes: readonly PartChange[]): readonly Draft[] {
  return [...new Set(changes.map((c) => c.part))].flatMap((id) => {
    const part = circuit.parts.get(id);
    const elements = part ? addedElements(part, changesOf(changes, id)) : [];
    return elements.length === 0 ? [] : [loose(`${id}.~added`, elements)];
  });
}

/** An ideal joint or exact source: it makes one node of two terminals. */
export const isJoint = (e: Element): boolean => 'ohm' in e && e.ohm === 0;

export const memberOf = ({ part, elements, values, varies, list }: Draft, first: number): Member => ({
  part,
  elements,
  values,
  varies,
  first,
  count: list.length,
});

export function branchOf(d: Draft, e: Element, nodeAt: (terminal: string) => number, offsetOf: ReadonlyMap<string, number>): Branch {
  const [fromTerminal, toTerminal] = ends(e);
  const [from, to] = [nodeAt(fromTerminal), nodeAt(toTerminal)];
  const offset = (offsetOf.get(fromTerminal) ?? 0) - (offsetOf.get(toTerminal) ?? 0);
  return { id: e.id, part: d.part.id.replace(/\.~added$/, ''), is: natureOf(e), from, to, fromTerminal, toTerminal, offset };
}

export function natureOf(e: Element): Branch['is'] {
  return 'plus' in e ? 'source' : 'into' in e ? 'current' : 'law' in e ? 'law' : 'resistance';
}

const looseKind: Part['kind'] = {
  kind: 'loose',
  title: 'fused jumper lead',
  about: '',
  letter: 'X',
  parameters: {},
  terminals: () => [],
  elements: () => [],
  poles: () => [],
  faults: () => [],
  access: () => ({ minutes: 2, where: '', source: 'estimate' }),
};
