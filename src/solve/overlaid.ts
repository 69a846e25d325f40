import type { Element } from '../circuit/element.ts';
import { additions, branchOf, changesOf, type Draft, draftOf, isJoint, memberOf, natureOf } from './draft.ts';
import type { Pattern } from './eliminationPattern.ts';
import { ends } from './faultyElements.ts';
import { pairsOf, patternFor } from './layout.ts';
import type { Network, PartChange } from './network.ts';
import { placeOf } from './reading.ts';

/** The sound layout with the changes that count in it; undefined where they give the wiring another form. `changes`: all that were asked for. */
export function overlaid(sound: Network, counted: readonly PartChange[], changes: readonly PartChange[]): Network | undefined {
  if (counted.some((c) => c.change.do === 'attach')) return undefined;
  const { circuit, nodeOf, offsetOf } = sound;
  const members = [...sound.members];
  const branches = [...sound.branches];
  const other: number[] = [];
  for (const id of new Set(counted.map((c) => c.part))) {
    const at = placeOf(sound, id);
    const part = circuit.parts.get(id);
    if (at === undefined || !part) continue;
    const draft = draftOf(part, changesOf(counted, id), circuit.ambient);
    const { first } = members[at]!;
    if (!fits(draft, draftOf(part, [], circuit.ambient))) return undefined;
    members[at] = memberOf(draft, first);
    other.push(at);
    for (const [k, e] of draft.list.entries()) branches[first + k] = { ...branches[first + k]!, is: natureOf(e) };
  }
  const added = additions(circuit, counted);
  if (added.length === 0) return { ...sound, changes, members, branches, other };
  if (added.some((d) => d.list.some((e) => isJoint(e) || ends(e).some((t) => !nodeOf.has(t))))) return undefined;
  const ids = new Map(sound.branchOf);
  for (const d of added) {
    other.push(members.length);
    members.push(memberOf(d, branches.length));
    for (const e of d.list) {
      const branch = branchOf(d, e, (t) => nodeOf.get(t)!, offsetOf);
      ids.set(branch.id, branches.length);
      branches.push(branch);
    }
  }
  const pairs = pairsOf(branches);
  const offsets = Float64Array.from(branches, (b) => b.offset);
  return withPattern({ ...sound, changes, members, branches, other, pairs, offsets, branchOf: ids }, () =>
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
