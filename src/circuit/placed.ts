import type { Problem } from './problem.ts';

/** A stretch of the file: offsets in UTF-16 units. */
export type Span = { readonly start: number; readonly end: number };
/** `told`: what stands here could not be taken and that was said; nothing more is to be said of it. */
export type PlacedText = { readonly is: 'text'; readonly text: string; readonly span: Span; readonly told?: true };
export type PlacedList = { readonly is: 'list'; readonly items: readonly Placed[]; readonly span: Span };
export type PlacedEntry = { readonly key: string; readonly keySpan: Span; readonly node: Placed };
/** `told`: entries of it were refused, so that a key may be missing for that reason. */
export type PlacedMap = {
  readonly is: 'map';
  readonly entries: ReadonlyMap<string, PlacedEntry>;
  readonly span: Span;
  readonly told?: true;
};
/** What stands in a file, with its places. Scalars are text as written: `yes`, `30`, `1.10` and `~` alike; nothing written is ''. */
export type Placed = PlacedText | PlacedList | PlacedMap;

/** Says a problem at a stretch of the file. */
export type Tell = (
  at: Span,
  problem: Pick<Problem, 'code' | 'what' | 'why' | 'mend'> & { readonly severity?: Problem['severity'] },
) => void;

/** Plain data for the schemas: text, arrays, and objects without a prototype. */
export function plainData(node: Placed): unknown {
  if (node.is === 'text') return node.text;
  if (node.is === 'list') return node.items.map(plainData);
  const plain: Record<string, unknown> = Object.create(null) as Record<string, unknown>;
  for (const entry of node.entries.values()) plain[entry.key] = plainData(entry.node);
  return plain;
}

/** Stretch to point at for a path through the data: the value, or the key when `atKey`; the nearest that exists. */
export function spanAt(root: Placed, path: readonly PropertyKey[], atKey = false): Span {
  let node = root;
  let span: Span = root.is === 'map' || root.is === 'list' ? { start: root.span.start, end: root.span.start } : root.span;
  for (const [k, step] of path.entries()) {
    if (node.is === 'map') {
      const entry = node.entries.get(String(step));
      if (!entry) return span;
      // A map or a list is pointed at by its name: the whole of it is no place.
      const isLast = k === path.length - 1;
      span = entry.node.is !== 'text' || entry.node.text === '' || (atKey && isLast) ? entry.keySpan : entry.node.span;
      node = entry.node;
    } else if (node.is === 'list') {
      const item = node.items[Number(step)];
      if (!item) return span;
      span = item.span;
      node = item;
    } else return span;
  }
  return span;
}
