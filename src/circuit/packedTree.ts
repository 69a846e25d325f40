import type { Placed, PlacedEntry, Span } from './placed.ts';

/**
 * Placed data told shortly by where it stands in its text: a build packs the circuits that come with the program, and
 * a page that unpacks them needs no parser. Numbers in the order of the file, each place counted from the one before:
 * kind, start, length, then for a list its count and items, for a map its count and for each entry start and length of
 * its key and the node. What is not read as it is written (quoted, over several lines) stands in `words`.
 */
export type PackedTree = { readonly numbers: readonly number[]; readonly words: readonly string[] };

const kinds = { asWritten: 0, otherwise: 1, list: 2, map: 3 } as const;

/** @param root must come from `text`, without a problem told of it */
export function packedTree(root: Placed, text: string): PackedTree {
  const numbers: number[] = [];
  const words: string[] = [];
  let at = 0;
  const place = ({ start, end }: Span) => {
    numbers.push(start - at, end - start);
    at = start;
  };
  const written = (said: string, span: Span) => {
    const asWritten = text.slice(span.start, span.end) === said;
    numbers.push(asWritten ? kinds.asWritten : kinds.otherwise);
    if (!asWritten) words.push(said);
    place(span);
  };
  const pack = (node: Placed): void => {
    if (node.is === 'text') {
      written(node.text, node.span);
      return;
    }
    numbers.push(kinds[node.is]);
    place(node.span);
    if (node.is === 'list') {
      numbers.push(node.items.length);
      node.items.forEach(pack);
      return;
    }
    numbers.push(node.entries.size);
    for (const { key, keySpan, node: value } of node.entries.values()) {
      written(key, keySpan);
      pack(value);
    }
  };
  pack(root);
  return { numbers, words };
}

/** @param text the same as it was packed from */
export function unpackedTree({ numbers, words }: PackedTree, text: string): Placed {
  let [next, word, at] = [0, 0, 0];
  const number = () => numbers[next++]!;
  const place = (): Span => {
    at += number();
    return { start: at, end: at + number() };
  };
  const written = (kind: number, span: Span) => (kind === kinds.asWritten ? text.slice(span.start, span.end) : words[word++]!);
  const unpack = (): Placed => {
    const kind = number();
    const span = place();
    if (kind === kinds.list) return { is: 'list', items: Array.from({ length: number() }, unpack), span };
    if (kind !== kinds.map) return { is: 'text', text: written(kind, span), span };
    const entries = new Map<string, PlacedEntry>();
    for (let left = number(); left > 0; left--) {
      const form = number();
      const keySpan = place();
      const key = written(form, keySpan);
      entries.set(key, { key, keySpan, node: unpack() });
    }
    return { is: 'map', entries, span };
  };
  return unpack();
}
