import { type Circuit, GROUND } from '../circuit/circuit.ts';
import type { Element } from '../circuit/element.ts';
import { nameOfOwn } from '../circuit/ownerOf.ts';
import { additions, branchOf, changesOf, type Draft, draftOf, isJoint, loose, memberOf } from './draft.ts';
import { eliminationPattern, type Pattern } from './eliminationPattern.ts';
import { ends } from './faultyElements.ts';
import { Joined } from './joined.ts';
import type { Branch, Joint, Member, Network, PartChange, Setup } from './network.ts';

/** Resistance of the fused jumper lead that bridges two terminals, Ω: clips and 1 m of 1.5 mm² (estimate). */
const jumper_ohm = 0.03;

/** Lays a circuit out from its parts, with changes in it. Cost: near linear in parts. */
export function laidOut(circuit: Circuit, changes: readonly PartChange[], setup: Setup): Network {
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
  for (const [end, terminal] of attachments(circuit, changes)) join({ id: end, a: end, b: terminal, volt: 0 });
  for (const { list } of drafts)
    for (const e of list.filter(isJoint)) {
      const [from, to] = ends(e);
      if ('plus' in e) join({ id: e.id, a: e.plus, b: e.minus, volt: e.volt });
      else join({ id: e.id, a: from, b: to, volt: 0 });
    }

  const usesGround = joined.has(GROUND) || drafts.some((d) => d.list.some((e) => ends(e).includes(GROUND)));
  const reference = usesGround ? GROUND : (firstMinus(drafts) ?? GROUND);
  const numbers = new Map<string, number>();
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
  nodeAt(reference); // the first to be asked for is node 0

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

function attachments(circuit: Circuit, changes: readonly PartChange[]): readonly (readonly [string, string])[] {
  const moved = new Map<string, string>();
  for (const { part, change } of changes) if (change.do === 'attach') moved.set(`${part}.${change.end}`, change.terminal);
  return moved.size === 0 ? circuit.attached : circuit.attached.map(([end, terminal]) => [end, moved.get(end) ?? terminal] as const);
}

function firstMinus(drafts: readonly Draft[]): string | undefined {
  for (const { part } of drafts) {
    const supply = part.kind.supply?.(part);
    if (supply) return nameOfOwn(part.id, supply[1]);
  }
  return undefined;
}

export function pairsOf(branches: readonly Branch[]): Int32Array {
  const pairs = new Int32Array(branches.length * 2);
  for (const [k, b] of branches.entries()) [pairs[2 * k], pairs[2 * k + 1]] = [b.from, b.to];
  return pairs;
}

/** Patterns depend on which nodes the branches join and on nothing else: the last few of a circuit are kept. */
const mostPatterns = 16;
const patterns = new WeakMap<Circuit, { nodes: number; pairs: Int32Array; pattern: Pattern }[]>();
export function patternFor(circuit: Circuit, nodes: number, pairs: Int32Array): Pattern {
  const known = patterns.get(circuit) ?? [];
  patterns.set(circuit, known);
  const same = known.find((k) => k.nodes === nodes && k.pairs.length === pairs.length && k.pairs.every((n, i) => n === pairs[i]));
  if (same) return same.pattern;
  const pattern = eliminationPattern(nodes, pairs);
  known.unshift({ nodes, pairs, pattern });
  if (known.length > mostPatterns) known.pop();
  return pattern;
}
