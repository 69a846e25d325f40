import type { Part, PartKind } from '../part.ts';

/**
 * Kinds of parts that an unknown part may be: their letter is that of its id, and they have all of its terminals.
 * Only kinds whose terminals do not hang on a parameter that nobody knows.
 *
 * @param most how many are named
 */
export function kindsFitting(id: string, terminals: readonly string[], kinds: readonly PartKind[], most = 5): readonly string[] {
  const letter = /^[A-Za-z]+/.exec(id)?.[0]?.toUpperCase() ?? '';
  const fitting = kinds.filter((kind) => kind.isWire !== true && terminals.every((t) => terminalsOf(kind).includes(t)));
  const same = fitting.filter((kind) => kind.letter === letter || (lit.has(kind.letter) && lit.has(letter)));
  // Those with the fewest terminals besides: a lamp before a module.
  return (same.length > 0 ? same : terminals.length > 2 ? fitting : [])
    .sort((a, b) => terminalsOf(a).length - terminalsOf(b).length)
    .slice(0, most)
    .map((kind) => kind.kind);
}

/** Letters that lamps, telltales and gauges share by habit. */
const lit = new Set(['E', 'H', 'P']);

const lists = new WeakMap<PartKind, readonly string[]>();
function terminalsOf(kind: PartKind): readonly string[] {
  const known = lists.get(kind);
  if (known) return known;
  const names = namesOf(kind);
  lists.set(kind, names);
  return names;
}

/** Terminals of a part with nothing but defaults; none when they hang on a parameter without one. */
function namesOf(kind: PartKind): readonly string[] {
  const params = Object.fromEntries(Object.entries(kind.parameters).map(([name, p]) => [name, 'default' in p ? p.default : undefined]));
  const hangs = Object.values(kind.parameters).some((p) => (p.as === 'form' || p.as === 'count' ? 'required' in p && p.required : false));
  if (hangs) return [];
  const part: Part = { id: 'X', kind, params, given: new Set(), isLoad: kind.load ?? false };
  return kind.terminals(part).map((t) => t.name);
}
