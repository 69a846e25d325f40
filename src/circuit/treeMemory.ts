import type { Placed, PlacedEntry, PlacedMap, Span } from './placed.ts';
import { type PlacedFile, placedFile } from './placedFile.ts';
import { yamlTree } from './yamlTree.ts';

/** Longest text taken piece by piece, UTF-16 units: well under the limit of a file, whatever its signs. */
const mostUnits = 300_000;
/** Lines that could make a line of the file mean something else than it says by itself. */
const odd = /^(?:---|\.\.\.|%|\t)/m;

/**
 * Remembers the pieces of a file from one reading to the next, for an editor: of a file with a line changed only that
 * entry is parsed anew. A piece is one entry of `parts`, one wire, or one other key at the beginning of a line. Whenever a
 * piece by itself is no sound YAML, or holds anything that is told, the whole file is read as ever: so what is told never
 * differs.
 */
export class TreeMemory {
  private pieces = new Map<string, Placed>();
  private readonly origins = new WeakMap<object, object>();
  private readonly made = new WeakMap<object, { readonly is: unknown }>();

  /** What `yamlTree` gives, faster where most of the text was read before. Cost: linear in the text, parsing apart. */
  readonly tree = (text: string, file: string): PlacedFile => this.remembered(text, file) ?? yamlTree(text, file);

  /** Something made of an entry or a wire alone, found again as long as its text does not change. @param keeps whether it may be found again */
  of<T>(entry: PlacedEntry | Placed, make: () => T, keeps: () => boolean): T {
    const origin = this.origins.get(entry);
    const known = origin && this.made.get(origin);
    if (known) return known.is as T;
    const fresh = make();
    if (origin && keeps()) this.made.set(origin, { is: fresh });
    return fresh;
  }

  private remembered(text: string, file: string): PlacedFile | undefined {
    if (text.length > mostUnits || text.includes('\r') || odd.test(text)) return undefined;
    const used = new Map<string, Placed>();
    const entries = new Map<string, PlacedEntry>();
    for (const piece of topPieces(text) ?? []) {
      const found = this.entry(piece, used);
      if (!found || entries.has(found.key)) return undefined;
      entries.set(found.key, found);
    }
    this.pieces = used;
    const [first] = entries.values();
    if (!first) return undefined;
    return placedFile(text, file, { is: 'map', entries, span: { start: first.keySpan.start, end: text.length } });
  }

  /** One key at the beginning of a line with what belongs to it. */
  private entry(piece: Piece, used: Map<string, Placed>): PlacedEntry | undefined {
    const key = /^(parts|wires):[ \t]*(?:#.*)?\n/.exec(piece.text);
    const inner = key
      ? innerPieces({ text: piece.text.slice(key[0].length), at: piece.at + key[0].length }, key[1] === 'wires')
      : undefined;
    if (!key || !inner || inner.length === 0) return this.single(piece, used);
    const keySpan = { start: piece.at, end: piece.at + key[1]!.length };
    const node = key[1] === 'wires' ? this.list(inner, used) : this.map(inner, used);
    return node && { key: key[1]!, keySpan, node };
  }

  private single(piece: Piece, used: Map<string, Placed>): PlacedEntry | undefined {
    const root = this.read(piece.text, used);
    if (root?.is !== 'map' || root.entries.size !== 1) return undefined;
    const [own] = root.entries.values();
    if (!own) return undefined;
    const entry = movedEntry(own, piece.at);
    this.origins.set(entry, own);
    return entry;
  }

  private map(inner: readonly Piece[], used: Map<string, Placed>): PlacedMap | undefined {
    const entries = new Map<string, PlacedEntry>();
    for (const piece of inner) {
      const found = this.single(piece, used);
      if (!found || entries.has(found.key)) return undefined;
      entries.set(found.key, found);
    }
    const all = [...entries.values()];
    return { is: 'map', entries, span: { start: all[0]!.keySpan.start, end: all.at(-1)!.node.span.end } };
  }

  private list(inner: readonly Piece[], used: Map<string, Placed>): Placed | undefined {
    const items: Placed[] = [];
    let start = 0;
    for (const piece of inner) {
      const root = this.read(piece.text, used);
      if (root?.is !== 'list' || root.items.length !== 1) return undefined;
      if (items.length === 0) start = root.span.start + piece.at;
      const item = moved(root.items[0]!, piece.at);
      this.origins.set(item, root.items[0]!);
      items.push(item);
    }
    return { is: 'list', items, span: { start, end: items.at(-1)!.span.end } };
  }

  /** A piece as it stands by itself; undefined when there is anything to tell of it. */
  private read(text: string, used: Map<string, Placed>): Placed | undefined {
    const known = used.get(text) ?? this.pieces.get(text);
    if (known) {
      used.set(text, known);
      return known;
    }
    const { root, problems } = yamlTree(text, '');
    if (!root || problems.length > 0) return undefined;
    used.set(text, root);
    return root;
  }
}

type Piece = { readonly text: string; readonly at: number };

/** A file cut before each line that begins with neither blank, comment nor dash. What stands above the first goes with it. */
function topPieces(text: string): readonly Piece[] | undefined {
  return cut(text, 0, /^[^\s#-]/gm);
}

/**
 * The entries of a block, by the indentation of the first one. Undefined when a line stands between that and the
 * beginning of the line: then the pieces may not be what they look like.
 */
function innerPieces({ text, at }: Piece, isList: boolean): readonly Piece[] | undefined {
  const indent = /^( *)[^\s#]/m.exec(text)?.[1]?.length;
  if (indent === undefined || (indent === 0 && !isList)) return undefined;
  const lead = ' '.repeat(indent);
  if (indent > 0 && new RegExp(`^ {0,${indent - 1}}[^\\s#]`, 'm').test(text)) return undefined;
  return cut(text, at, new RegExp(`^${lead}${isList ? '-(?=\\s)' : '[^\\s#]'}`, 'gm'));
}

/** Undefined when anything but comments stands above the first piece. */
function cut(text: string, at: number, first: RegExp): readonly Piece[] | undefined {
  const starts = [...text.matchAll(first)].map((m) => m.index);
  if (/^[ \t]*[^\s#]/m.test(text.slice(0, starts[0] ?? text.length))) return undefined;
  return starts.map((from, k) => ({ text: text.slice(from, starts[k + 1] ?? text.length), at: at + from }));
}

const movedSpan = (span: Span, by: number): Span => ({ start: span.start + by, end: span.end + by });

function movedEntry({ key, keySpan, node }: PlacedEntry, by: number): PlacedEntry {
  return { key, keySpan: movedSpan(keySpan, by), node: moved(node, by) };
}

function moved(node: Placed, by: number): Placed {
  const span = movedSpan(node.span, by);
  if (node.is === 'text') return { ...node, span };
  if (node.is === 'list') return { ...node, items: node.items.map((item) => moved(item, by)), span };
  return { ...node, entries: new Map([...node.entries].map(([key, entry]) => [key, movedEntry(entry, by)])), span };
}
