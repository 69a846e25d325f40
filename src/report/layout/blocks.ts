import { Groups } from './groups.ts';
import type { Heights } from './heights.ts';
import type { Nets, Piece } from './nets.ts';

/** Pieces of one part that stand side by side in one frame and one row. */
export type Block = { readonly part: string; readonly isKey: boolean; readonly pieces: readonly Piece[] };

/**
 * Parts whose pieces share a terminal are drawn as one: key switch, module, two-filament lamp, hand switch with several
 * ways. A piece that hangs on another of the same part (its upper net is the other's lower one) cannot stand beside
 * it; then a key switch keeps the rest together, and any other part is drawn detached.
 */
export function blocksOf(nets: Nets, heights: Heights): readonly Block[] {
  const byPart = new Map<string, Piece[]>();
  for (const p of nets.pieces) byPart.set(p.part.id, [...(byPart.get(p.part.id) ?? []), p]);
  const blocks: Block[] = [];
  for (const [part, pieces] of byPart) {
    const isKey = pieces[0]!.part.kind.key !== undefined;
    for (const group of isKey ? [pieces] : bySharedTerminal(pieces)) {
      const lowers = new Set(group.map(heights.lower));
      const beside = group.filter((p) => !lowers.has(heights.upper(p)) && (!isKey || isFedWithMost(p, group, heights)));
      if (isKey ? beside.length > 0 : beside.length > 1 && beside.length === group.length) blocks.push({ part, isKey, pieces: beside });
    }
  }
  return blocks;
}

/** A key-in contact that something hangs above (a buzzer) stands apart from the contacts that feed. */
function isFedWithMost(piece: Piece, group: readonly Piece[], heights: Heights): boolean {
  const count = (net: number) => group.filter((p) => heights.upper(p) === net).length;
  const main = group.map(heights.upper).reduce((best, net) => (count(net) > count(best) ? net : best));
  return heights.order.indexOf(heights.upper(piece)) <= heights.order.indexOf(main);
}

function bySharedTerminal(pieces: readonly Piece[]): readonly (readonly Piece[])[] {
  const shared = new Groups();
  for (const p of pieces) shared.join(p.from, p.to);
  const groups = new Map<string, Piece[]>();
  for (const p of pieces) groups.set(shared.root(p.from), [...(groups.get(shared.root(p.from)) ?? []), p]);
  return [...groups.values()];
}
