import type { Element } from '../circuit/element.ts';
import { behindResistance, steadyDraw } from '../circuit/laws.ts';
import type { Change, Part } from '../circuit/part.ts';
import type { Condition } from '../circuit/scene.ts';

type ElementsAt = (at: Condition) => readonly Element[];

/** The part with the parameters that its faults give it; the very same part when they give none. */
export function withParams(part: Part, changes: readonly Change[]): Part {
  const patches = changes.flatMap((c) => (c.do === 'params' ? [c.patch] : []));
  return patches.length === 0 ? part : { ...part, params: Object.assign({}, part.params, ...patches) };
}

/** The part's own elements with its faults in them, under their local names; undefined when no fault touches any. */
export function faultyElements(part: Part, changes: readonly Change[]): ElementsAt | undefined {
  const touching = changes.filter((c) => c.do === 'series' || c.do === 'fix');
  if (touching.length === 0) return undefined;
  return (at) => {
    let list = part.kind.elements(part, at);
    for (const c of touching)
      list = list.flatMap((e) => (e.id !== c.element ? [e] : c.do === 'series' ? inSeries(e, c.ohm) : [fixed(e, c.ohm)]));
    return list;
  };
}

/** What a part's faults add to the wiring: shorts, leaks and draws between terminals anywhere, under their global names. */
export function addedElements(part: Part, changes: readonly Change[]): readonly Element[] {
  return changes.flatMap((c, k): Element[] => {
    if (c.do === 'bridge') return [{ id: `${part.id}.~bridge${k}`, from: c.from, to: c.to, ohm: c.ohm }];
    if (c.do === 'draw') return [{ id: `${part.id}.~draw${k}`, from: c.from, to: c.to, law: steadyDraw(c.ampere) }];
    return [];
  });
}

function inSeries(e: Element, ohm: number): readonly Element[] {
  if ('plus' in e || ('from' in e && 'ohm' in e)) return [{ ...e, ohm: e.ohm + ohm }];
  if ('into' in e) return [ohm === Number.POSITIVE_INFINITY ? { ...e, ampere: 0 } : e]; // an ideal current flows through any resistance
  // One branch as before, so that the layout of the sound circuit still serves.
  return [ohm === Number.POSITIVE_INFINITY ? fixed(e, ohm) : { ...e, law: behindResistance(e.law, ohm) }];
}

function fixed(e: Element, ohm: number): Element {
  const [from, to] = ends(e);
  return { id: e.id, from, to, ohm };
}

/** First and second end of an element: the direction in which its current is counted. */
export function ends(e: Element): readonly [string, string] {
  if ('plus' in e) return [e.minus, e.plus];
  if ('into' in e) return [e.outOf, e.into];
  return [e.from, e.to];
}
