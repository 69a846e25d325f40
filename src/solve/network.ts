import { type Circuit, GROUND } from '../circuit/circuit.ts';
import type { Element } from '../circuit/element.ts';
import { steadyDraw } from '../circuit/laws.ts';
import type { Change, Part } from '../circuit/part.ts';
import type { Condition, Scene } from '../circuit/scene.ts';
import { eliminationPattern, type Pattern } from './eliminationPattern.ts';

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

/** A part of the network with the elements it gives at an instant, after its faults. */
export type Member = {
  readonly part: Part;
  /** Elements for a condition; same ids and ends every time. */
  readonly elements: (at: Condition) => readonly Element[];
  /** Index of its first branch. */
  readonly first: number;
  readonly count: number;
  /** False when nothing of an instant touches its elements. */
  readonly varies: boolean;
};

/**
 * A circuit with a set of changes in it, laid out for solving: terminals joined ideally are one node, every element
 * is a branch, and the elimination is worked out once for every scene. Immutable but for the solver's working space.
 */
export type Network = {
  readonly circuit: Circuit;
  readonly changes: readonly PartChange[];
  readonly setup: Setup;
  readonly members: readonly Member[];
  readonly branches: readonly Branch[];
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

/** A loop of exact sources whose voltages do not agree has no solution; the reader reports it, so this is a bug when it gets here. */
export class SourceLoop extends Error {}

const noSetup: Setup = { apart: [], bridged: [], swapped: [] };

/** Resistance of the fused jumper lead that bridges two terminals, Ω: clips and 1 m of 1.5 mm² (estimate). */
const jumper_ohm = 0.03;

/**
 * Lays out a circuit for solving.
 *
 * Cost: near linear in parts; the pattern of the unchanged circuit is reused when the changes leave it alone.
 */
export function network(circuit: Circuit, changes: readonly PartChange[] = [], setup: Setup = noSetup): Network {
  const counted = changes.filter((c) => !setup.swapped.includes(c.part));
  const joined = new Joined();
  const joints: Joint[] = [];
  const join = (joint: Joint) => {
    joints.push(joint);
    joined.join(joint.a, joint.b, joint.volt);
  };
  for (const [end, terminal] of attachments(circuit, counted))
    join({ id: end, part: end.slice(0, end.lastIndexOf('.')), a: end, b: terminal, volt: 0 });

  const drafts: { part: Part; elements: (at: Condition) => readonly Element[]; varies: boolean; list: readonly Element[] }[] = [];
  for (const part of circuit.parts.values()) {
    if (setup.apart.includes(part.id)) continue;
    const own = counted.filter((c) => c.part === part.id).map((c) => c.change);
    const changed = withParams(part, own);
    const elements = changedElements(changed, own);
    const list = elements(atRest(changed, circuit.ambient));
    for (const e of list) {
      if ('ohm' in e && 'from' in e && e.ohm === 0) join({ id: e.id, part: part.id, a: e.from, b: e.to, volt: 0 });
      if ('plus' in e && e.ohm === 0) join({ id: e.id, part: part.id, a: e.plus, b: e.minus, volt: e.volt });
    }
    drafts.push({ part: changed, elements, varies: (changed.kind.varies?.length ?? 0) > 0, list });
  }
  const bridges = setup.bridged.map(([from, to], k): Element => ({ id: `jumper${k + 1}`, from, to, ohm: jumper_ohm }));

  const reference =
    joined.has(GROUND) || drafts.some((d) => d.list.some((e) => ends(e).includes(GROUND))) ? GROUND : (firstMinus(drafts) ?? GROUND);
  const numbers = new Map<string, number>([[joined.root(reference).name, 0]]);
  const nodeOf = new Map<string, number>();
  const offsetOf = new Map<string, number>();
  const base = joined.root(reference).volt;
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
  const place = (part: string, e: Element) => {
    const [fromTerminal, toTerminal] = ends(e);
    const [from, to] = [nodeAt(fromTerminal), nodeAt(toTerminal)];
    const offset = (offsetOf.get(fromTerminal) ?? 0) - (offsetOf.get(toTerminal) ?? 0);
    branches.push({ id: e.id, part, is: natureOf(e), from, to, fromTerminal, toTerminal, offset });
  };
  for (const { part, elements, varies, list } of drafts) {
    members.push({ part, elements, first: branches.length, count: list.length, varies });
    for (const e of list) place(part.id, e);
  }
  if (bridges.length > 0) {
    const part: Part = { id: 'jumper', kind: bareKind, params: {}, given: new Set(), isLoad: false };
    members.push({ part, elements: () => bridges, first: branches.length, count: bridges.length, varies: false });
    for (const e of bridges) place('jumper', e);
  }
  for (const [a, b] of circuit.attached) for (const t of [a, b]) nodeAt(t);
  for (const part of circuit.parts.values()) for (const t of part.kind.terminals(part)) nodeAt(`${part.id}.${t.name}`);

  const pairs = new Int32Array(branches.length * 2);
  for (const [k, b] of branches.entries()) [pairs[2 * k], pairs[2 * k + 1]] = [b.from, b.to];
  return {
    circuit,
    changes,
    setup,
    members,
    branches,
    branchOf: new Map(branches.map((b, k) => [b.id, k])),
    pattern: patternFor(circuit, numbers.size, pairs),
    nodeOf,
    offsetOf,
    reference,
    joints,
  };
}

function natureOf(e: Element): Branch['is'] {
  return 'plus' in e ? 'source' : 'into' in e ? 'current' : 'law' in e ? 'law' : 'resistance';
}

/** First and second end of an element: the direction in which its current is counted. */
export function ends(e: Element): readonly [string, string] {
  if ('plus' in e) return [e.minus, e.plus];
  if ('into' in e) return [e.outOf, e.into];
  return [e.from, e.to];
}

/** The condition of a part that nobody touched, in a vehicle that stands. */
export function atRest(part: Part, ambient: number): Condition {
  return {
    key: undefined,
    setting: part.kind.settings?.(part)[0] ?? '',
    engine: 'stopped',
    ambient,
    state: part.kind.initial?.(part) ?? {},
  };
}

/** Most faults leave the pattern as it is: then the last one laid out for this circuit serves again. */
const patterns = new WeakMap<Circuit, { nodes: number; pairs: Int32Array; pattern: Pattern }[]>();
function patternFor(circuit: Circuit, nodes: number, pairs: Int32Array): Pattern {
  const known = patterns.get(circuit) ?? [];
  patterns.set(circuit, known);
  const same = known.find((k) => k.nodes === nodes && k.pairs.length === pairs.length && k.pairs.every((n, i) => n === pairs[i]));
  if (same) return same.pattern;
  const pattern = eliminationPattern(nodes, pairs);
  known.unshift({ nodes, pairs, pattern });
  if (known.length > 8) known.pop();
  return pattern;
}

function attachments(circuit: Circuit, changes: readonly PartChange[]): readonly (readonly [string, string])[] {
  const moved = new Map<string, string>();
  for (const { part, change } of changes) if (change.do === 'attach') moved.set(`${part}.${change.end}`, change.terminal);
  return moved.size === 0 ? circuit.attached : circuit.attached.map(([end, terminal]) => [end, moved.get(end) ?? terminal] as const);
}

function withParams(part: Part, changes: readonly Change[]): Part {
  const patches = changes.flatMap((c) => (c.do === 'params' ? [c.patch] : []));
  return patches.length === 0 ? part : { ...part, params: Object.assign({}, part.params, ...patches) };
}

/** The part's elements with global names, its faults in them. Only the pieces that a fault touches are rebuilt. */
function changedElements(part: Part, changes: readonly Change[]): (at: Condition) => readonly Element[] {
  const name = (t: string) => (t === 'ground' || t === 'block' ? t : `${part.id}.${t}`);
  const wide = (e: Element): Element => {
    const id = e.id === '' ? part.id : `${part.id}.${e.id}`;
    if ('plus' in e) return { ...e, id, plus: name(e.plus), minus: name(e.minus) };
    if ('into' in e) return { ...e, id, into: name(e.into), outOf: name(e.outOf) };
    return { ...e, id, from: name(e.from), to: name(e.to) };
  };
  const touching = changes.filter((c) => c.do === 'series' || c.do === 'fix');
  const added: Element[] = changes.flatMap((c, k): Element[] => {
    if (c.do === 'bridge') return [{ id: `${part.id}.~bridge${k}`, from: c.from, to: c.to, ohm: c.ohm }];
    if (c.do === 'draw') return [{ id: `${part.id}.~draw${k}`, from: c.from, to: c.to, law: steadyDraw(c.ampere) }];
    return [];
  });
  const plain = (at: Condition): readonly Element[] => part.kind.elements(part, at).map(wide);
  if (touching.length === 0 && added.length === 0) return plain;
  return (at) => {
    let list: readonly Element[] = plain(at);
    for (const c of touching) {
      const id = c.element === '' ? part.id : `${part.id}.${c.element}`;
      list = list.flatMap((e) => (e.id !== id ? [e] : c.do === 'series' ? inSeries(e, c.ohm) : [fixed(e, c.ohm)]));
    }
    return [...list, ...added];
  };
}

function inSeries(e: Element, ohm: number): readonly Element[] {
  if ('plus' in e || ('from' in e && 'ohm' in e)) return [{ ...e, ohm: e.ohm + ohm }];
  const inner = `${e.id}.~series`;
  if ('into' in e) return [e];
  return [
    { ...e, to: inner },
    { id: `${e.id}.~added`, from: inner, to: e.to, ohm },
  ];
}

function fixed(e: Element, ohm: number): Element {
  const [from, to] = 'plus' in e ? [e.plus, e.minus] : ends(e);
  return { id: e.id, from, to, ohm };
}

function firstMinus(drafts: readonly { part: Part }[]): string | undefined {
  for (const { part } of drafts) {
    const supply = part.kind.supply?.(part);
    if (supply) return `${part.id}.${supply[1]}`;
  }
  return undefined;
}

/** Terminals joined with a known voltage between them; union-find with potentials. */
class Joined {
  private readonly up = new Map<string, { to: string; volt: number }>();
  has(name: string): boolean {
    return this.up.has(name);
  }
  /** Representative, and volts of `name` above it. */
  root(name: string): { name: string; volt: number } {
    let at = name;
    let volt = 0;
    for (let link = this.up.get(at); link !== undefined && link.to !== at; link = this.up.get(at)) {
      volt += link.volt;
      at = link.to;
    }
    if (at !== name) this.up.set(name, { to: at, volt });
    return { name: at, volt };
  }
  /** Says that `a` is `volt` above `b`. */
  join(a: string, b: string, volt: number): void {
    for (const t of [a, b]) if (!this.up.has(t)) this.up.set(t, { to: t, volt: 0 });
    const [ra, rb] = [this.root(a), this.root(b)];
    if (ra.name === rb.name) {
      if (Math.abs(ra.volt - rb.volt - volt) > 1e-12) throw new SourceLoop(`${a} and ${b} are joined twice with different voltages`);
      return;
    }
    this.up.set(ra.name, { to: rb.name, volt: volt - ra.volt + rb.volt });
  }
}

const bareKind: Part['kind'] = {
  kind: 'jumper',
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
