import type { Circuit } from './circuit.ts';
import type { Part } from './part.ts';

/** A part with terminals that nothing is fastened to, global names. */
export type LoosePart = { readonly part: Part; readonly terminals: readonly string[]; readonly isWhole: boolean };

/**
 * Parts with loose terminals that were hardly meant so. Not counted: terminals that their kind calls optional, and
 * pieces with both ends bare (a spare pin, a spare contact), as vehicles have them.
 */
export function looseParts(
  circuit: Circuit,
  open: { readonly openAt: ReadonlySet<string>; readonly named: ReadonlySet<string> },
): readonly LoosePart[] {
  const used = new Set(circuit.attached.flat());
  return [...circuit.parts.values()].flatMap((part): readonly LoosePart[] => {
    if (open.named.has(part.id)) return [];
    const terminals = part.kind.terminals(part);
    const isFastened = (name: string) => used.has(`${part.id}.${name}`) || open.openAt.has(`${part.id}.${name}`);
    const bare = terminals.filter((t) => !isFastened(t.name));
    if (bare.length === 0) return [];
    const global = (list: typeof bare) => list.map((t) => `${part.id}.${t.name}`);
    if (bare.length === terminals.length) return [{ part, terminals: global(bare), isWhole: true }];
    const names = new Set(bare.map((t) => t.name));
    const spare = new Set(part.kind.poles(part).flatMap((p) => (names.has(p.from) && names.has(p.to) ? [p.from, p.to] : [])));
    const meant = bare.filter((t) => t.optional !== true && !spare.has(t.name));
    return meant.length === 0 ? [] : [{ part, terminals: global(meant), isWhole: false }];
  });
}
