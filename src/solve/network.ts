import { type Circuit, GROUND } from '../circuit/circuit.ts';
import type { Element } from '../circuit/element.ts';
import type { Change, Part } from '../circuit/part.ts';
import type { Condition, Scene } from '../circuit/scene.ts';
import { eliminationPattern, type Pattern } from './eliminationPattern.ts';
import { addedElements, ends, faultyElements, withParams } from './faultyElements.ts';
import { Joined } from './joined.ts';
import { partValues, type ValuesAt, valuesOf } from './partValues.ts';

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

export type Joint = { readonly id: string; readonly part: string; readonly a: string; readonly b: string; readonly volt: number };

const noSetup: Setup = { apart: [], bridged: [], swapped: [] };

/** Resistance of the fused jumper lead that bridges two terminals, Ω: clips and 1 m of 1.5 mm² (estimate). */
const jumper_ohm = 0.03;

/**
 * Lays out a circuit for solving.
 *
 * Nearly every fault leaves the wiring's form as it is, or adds a branch to it: then the layout of the healthy circuit
 * in the same setup, which is kept, serves with the faulty part's own numbers in it.
 * Cost: near linear in parts for a new layout; for a fault in a known one, that of copying a list of branches at most.
 */
export function network(circuit: Circuit, changes: readonly PartChange[] = [], setup: Setup = noSetup): Network {
  const sound = soundNetwork(circuit, setup);
  if (changes.length === 0) return sound;
  const counted = changes.filter((c) => !setup.swapped.includes(c.part) && !setup.apart.includes(c.part));
  return overlaid(sound, counted, changes) ?? { ...laidOut(circuit, counted, sound.setup), changes };
}

/** How many setups of one circuit are kept; a diagnosis tries many, one after the other. */
const mostSetups = 24;
const soundNetworks = new WeakMap<Circuit, Map<string, Network>>();
function soundNetwork(circuit: Circuit, { apart, bridged, swapped }: Setup): Network {
  const known = soundNetworks.get(circuit) ?? new Map<string, Network>();
  soundNetworks.set(circuit, known);
  const key = JSON.stringify([apart, bridged]);
  const same = known.get(key);
  if (same) return same.setup.swapped.length === 0 && swapped.length === 0 ? same : { ...same, setup: { apart, bridged, swapped } };
  const laid = laidOut(circuit, [], { apart, bridged, swapped });
  if (known.size >= mostSetups) known.delete(known.keys().next().value!);
  known.set(key, laid);
  return laid;
}

/** A member before its branches have a place; its elements at rest stand for those of every condition. */
type Draft = Pick<Member, 'part' | 'elements' | 'values' | 'varies'> & { readonly list: readonly Element[] };

function draftOf(part: Part, changes: readonly Change[], ambient: number): Draft {
  const changed = withParams(part, changes);
  const faulty = faultyElements(changed, changes);
  const own = faulty ?? ((at: Condition) => changed.kind.elements(changed, at));
  const elements = (at: Condition) => own(at).map((e) => widened(changed.id, e));
  const values = faulty ? valuesOf(changed, faulty) : partValues(changed);
  return { part: changed, elements, values, varies: (changed.kind.varies?.length ?? 0) > 0, list: elements(atRest(changed, ambient)) };
}

/** The element with names of the whole circuit; `ground` and `block` are everybody's. */
function widened(part: string, e: Element): Element {
  const name = (t: string) => (t === 'ground' || t === 'block' ? t : `${part}.${t}`);
  const id = e.id === '' ? part : `${part}.${e.id}`;
  if ('plus' in e) return { ...e, id, plus: name(e.plus), minus: name(e.minus) };
  if ('into' in e) return { ...e, id, into: name(e.into), outOf: name(e.outOf) };
  return { ...e, id, from: name(e.from), to: name(e.to) };
}

/** Elements that belong to no part of the file. `id` must be nobody's part. */
function loose(id: string, list: readonly Element[]): Draft {
  const part: Part = { id, kind: looseKind, params: {}, given: new Set(), isLoad: false };
  const elements = () => list;
  return { part, elements, values: valuesOf(part, elements), varies: false, list };
}

const changesOf = (changes: readonly PartChange[], part: string) => changes.flatMap((c) => (c.part === part ? [c.change] : []));

function laidOut(circuit: Circuit, changes: readonly PartChange[], setup: Setup): Network {
  const drafts: Draft[] = [];
  for (const part of circuit.parts.values())
    if (!setup.apart.includes(part.id)) drafts.push(draftOf(part, changesOf(changes, part.id), circuit.ambient));
  drafts.push(...additions(circuit, changes));
  if (setup.bridged.length > 0) {
    const leads = setup.bridged.map(([from, to], k): Element => ({ id: `jumper${k + 1}`, from, to, ohm: jumper_ohm }));
    drafts.push(loose('jumper', leads));
  }

  const joined = new Joined();
  const joints: Joint[] = [];
  const join = (joint: Joint) => {
    joints.push(joint);
    joined.join(joint.a, joint.b, joint.volt);
  };
  for (const [end, terminal] of attachments(circuit, changes))
    join({ id: end, part: end.slice(0, end.lastIndexOf('.')), a: end, b: terminal, volt: 0 });
  for (const { part, list } of drafts)
    for (const e of list.filter(isJoint)) {
      const [from, to] = ends(e);
      if ('plus' in e) join({ id: e.id, part: part.id, a: e.plus, b: e.minus, volt: e.volt });
      else join({ id: e.id, part: part.id, a: from, b: to, volt: 0 });
    }

  const usesGround = joined.has(GROUND) || drafts.some((d) => d.list.some((e) => ends(e).includes(GROUND)));
  const reference = usesGround ? GROUND : (firstMinus(drafts) ?? GROUND);
  const numbers = new Map<string, number>([[joined.root(reference).name, 0]]);
  const base = joined.root(reference).volt;
  const nodeOf = new Map<string, number>();
  const offsetOf = new Map<string, number>();
  const nodeAt = (terminal: string): number => {
    const known = nodeOf.get(terminal);
    if (known !== undefined) return known;
    const { name, volt } = joined.root(terminal);
    const number = numbers.get(name) ?? numbers.size;
    numbers.set(name, number);
    nodeOf.set(terminal, number);
    const offset = number === 0 ? volt - base : volt;
    if (offset !== 0) offsetOf.set(terminal, offset);
    return number;
  };
  nodeAt(reference);

  const members: Member[] = [];
  const branches: Branch[] = [];
  for (const d of drafts) {
    members.push(memberOf(d, branches.length));
    for (const e of d.list) branches.push(branchOf(d, e, nodeAt, offsetOf));
  }
  for (const tied of circuit.attached) for (const t of tied) nodeAt(t);
  for (const part of circuit.parts.values()) for (const t of part.kind.terminals(part)) nodeAt(`${part.id}.${t.name}`);

  const pairs = pairsOf(branches);
  return {
    circuit,
    changes,
    setup,
    members,
    branches,
    pairs,
    offsets: Float64Array.from(branches, (b) => b.offset),
    branchOf: new Map(branches.map((b, k) => [b.id, k])),
    pattern: patternFor(circuit, numbers.size, pairs),
    nodeOf,
    offsetOf,
    reference,
    joints,
  };
}

/** The sound layout with the changes that count in it; undefined where they give the wiring another form. `changes`: all that were asked for. */
function overlaid(sound: Network, counted: readonly PartChange[], changes: readonly PartChange[]): Network | undefined {
  if (counted.some((c) => c.change.do === 'attach')) return undefined;
  const { circuit, nodeOf, offsetOf } = sound;
  const members = [...sound.members];
  const branches = [...sound.branches];
  for (const id of new Set(counted.map((c) => c.part))) {
    const at = members.findIndex((m) => m.part.id === id);
    const part = circuit.parts.get(id);
    if (at < 0 || !part) continue;
    const draft = draftOf(part, changesOf(counted, id), circuit.ambient);
    const { first } = members[at]!;
    if (!fits(draft, draftOf(part, [], circuit.ambient))) return undefined;
    members[at] = memberOf(draft, first);
    for (const [k, e] of draft.list.entries()) branches[first + k] = { ...branches[first + k]!, is: natureOf(e) };
  }
  const added = additions(circuit, counted);
  if (added.length === 0) return { ...sound, changes, members, branches };
  if (added.some((d) => d.list.some((e) => isJoint(e) || ends(e).some((t) => !nodeOf.has(t))))) return undefined;
  const ids = new Map(sound.branchOf);
  for (const d of added) {
    members.push(memberOf(d, branches.length));
    for (const e of d.list) {
      const branch = branchOf(d, e, (t) => nodeOf.get(t)!, offsetOf);
      ids.set(branch.id, branches.length);
      branches.push(branch);
    }
  }
  const pairs = pairsOf(branches);
  const offsets = Float64Array.from(branches, (b) => b.offset);
  return withPattern({ ...sound, changes, members, branches, pairs, offsets, branchOf: ids }, () =>
    patternFor(circuit, sound.pattern.nodes, pairs),
  );
}

/** The elimination of a new pattern costs more than the layout, and who updates a factored network never asks for it: worked out when first wanted. */
function withPattern(net: Network, made: () => Pattern): Network {
  const keep = (pattern: Pattern) => {
    Object.defineProperty(net, 'pattern', { value: pattern, enumerable: true });
    return pattern;
  };
  return Object.defineProperty(net, 'pattern', { get: () => keep(made()), enumerable: true, configurable: true });
}

/** Same elements in the same places, joined in the same way: then a faulty part takes the place of the sound one. */
function fits(faulty: Draft, sound: Draft): boolean {
  const same = (a: Element, b: Element): boolean => {
    const joint = isJoint(a);
    return (
      a.id === b.id &&
      joint === isJoint(b) &&
      ends(a).join() === ends(b).join() &&
      (!joint || !('plus' in a) || ('plus' in b && a.volt === b.volt))
    );
  };
  return faulty.list.length === sound.list.length && faulty.list.every((e, k) => same(e, sound.list[k]!));
}

function additions(circuit: Circuit, changes: readonly PartChange[]): readonly Draft[] {
  return [...new Set(changes.map((c) => c.part))].flatMap((id) => {
    const part = circuit.parts.get(id);
    const elements = part ? addedElements(part, changesOf(changes, id)) : [];
    return elements.length === 0 ? [] : [loose(`${id}.~added`, elements)];
  });
}

const isJoint = (e: Element): boolean => 'ohm' in e && e.ohm === 0;

const memberOf = ({ part, elements, values, varies, list }: Draft, first: number): Member => ({
  part,
  elements,
  values,
  varies,
  first,
  count: list.length,
});

function branchOf(d: Draft, e: Element, nodeAt: (terminal: string) => number, offsetOf: ReadonlyMap<string, number>): Branch {
  const [fromTerminal, toTerminal] = ends(e);
  const [from, to] = [nodeAt(fromTerminal), nodeAt(toTerminal)];
  const offset = (offsetOf.get(fromTerminal) ?? 0) - (offsetOf.get(toTerminal) ?? 0);
  return { id: e.id, part: d.part.id.replace(/\.~added$/, ''), is: natureOf(e), from, to, fromTerminal, toTerminal, offset };
}

function natureOf(e: Element): Branch['is'] {
  return 'plus' in e ? 'source' : 'into' in e ? 'current' : 'law' in e ? 'law' : 'resistance';
}

function pairsOf(branches: readonly Branch[]): Int32Array {
  const pairs = new Int32Array(branches.length * 2);
  for (const [k, b] of branches.entries()) [pairs[2 * k], pairs[2 * k + 1]] = [b.from, b.to];
  return pairs;
}

/** The condition of a part that nobody touched, in a vehicle that stands. Worked out once a part, so its state is the same object every time. */
export function atRest(part: Part, ambient: number): Condition {
  const known = rests.get(part);
  if (known?.ambient === ambient) return known;
  const rest: Condition = {
    key: undefined,
    setting: part.kind.settings?.(part)[0] ?? '',
    engine: 'stopped',
    ambient,
    state: part.kind.initial?.(part) ?? {},
  };
  rests.set(part, rest);
  return rest;
}
const rests = new WeakMap<Part, Condition>();

/** Patterns depend on which nodes the branches join and on nothing else: the last few of a circuit are kept. */
const mostPatterns = 16;
const patterns = new WeakMap<Circuit, { nodes: number; pairs: Int32Array; pattern: Pattern }[]>();
function patternFor(circuit: Circuit, nodes: number, pairs: Int32Array): Pattern {
  const known = patterns.get(circuit) ?? [];
  patterns.set(circuit, known);
  const same = known.find((k) => k.nodes === nodes && k.pairs.length === pairs.length && k.pairs.every((n, i) => n === pairs[i]));
  if (same) return same.pattern;
  const pattern = eliminationPattern(nodes, pairs);
  known.unshift({ nodes, pairs, pattern });
  if (known.length > mostPatterns) known.pop();
  return pattern;
}

function attachments(circuit: Circuit, changes: readonly PartChange[]): readonly (readonly [string, string])[] {
  const moved = new Map<string, string>();
  for (const { part, change } of changes) if (change.do === 'attach') moved.set(`${part}.${change.end}`, change.terminal);
  return moved.size === 0 ? circuit.attached : circuit.attached.map(([end, terminal]) => [end, moved.get(end) ?? terminal] as const);
}

function firstMinus(drafts: readonly Draft[]): string | undefined {
  for (const { part } of drafts) {
    const supply = part.kind.supply?.(part);
    if (supply) return `${part.id}.${supply[1]}`;
  }
  return undefined;
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
