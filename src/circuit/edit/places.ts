import { isMap, isNode, isPair, isScalar, isSeq, type Node, type Pair, parseDocument, visit, type YAMLMap, type YAMLSeq } from 'yaml';
import { idFromEnds } from '../wires.ts';
import { fileLimit_bytes } from '../yamlTree.ts';

/** A circuit file as its text and where things stand in it. Nothing is checked but that it is YAML with a map on top. */
export type Places = {
  readonly text: string;
  readonly root: YAMLMap;
  readonly parts: YAMLMap | undefined;
  readonly wires: YAMLSeq | undefined;
  readonly engine: YAMLMap | undefined;
};
export type Entry = Pair<Node, Node | null>;

/** The sign that begins a text of several lines stands at the end of its line. */
const blockText = /[|>][-+\d]*[ \t]*(#.*)?$/m;

/** The library counts the line ends behind a text of several lines to that text, and an edit would take the next line along. */
function endWithLastLine(document: ReturnType<typeof parseDocument>, text: string): void {
  visit(document, {
    Scalar: (_, node) => {
      if (!node.range || !node.type?.startsWith('BLOCK')) return;
      const [start, end, behind] = node.range;
      node.range = [start, start + text.slice(start, end).replace(/[ \t\r\n]+$/, '').length, behind];
    },
  });
}

/** Undefined while the text is no YAML with a map on top, or too large to be read. */
export function placesOf(text: string): Places | undefined {
  if (text.length > fileLimit_bytes) return undefined;
  const document = parseDocument(text, { schema: 'failsafe', version: '1.2', uniqueKeys: false, prettyErrors: false, logLevel: 'error' });
  const root = document.contents;
  if (document.errors.length > 0 || !isMap(root)) return undefined;
  if (blockText.test(text)) endWithLastLine(document, text);
  const [parts, wires, engine] = ['parts', 'wires', 'engine'].map((key) => entryOf(root as YAMLMap, key)?.value);
  return {
    text,
    root: root as YAMLMap,
    parts: isMap(parts) ? (parts as YAMLMap) : undefined,
    wires: isSeq(wires) ? (wires as YAMLSeq) : undefined,
    engine: isMap(engine) ? (engine as YAMLMap) : undefined,
  };
}

export function entriesOf(map: YAMLMap | undefined): readonly Entry[] {
  return (map?.items ?? []).filter((item) => isPair(item) && isNode(item.key)) as readonly Entry[];
}
export function entryOf(map: YAMLMap | undefined, key: string): Entry | undefined {
  return entriesOf(map).find((e) => keyText(e) === key);
}
export const keyText = (entry: Entry): string => (isScalar(entry.key) ? String(entry.key.value ?? '') : '');

/** Text of a scalar; undefined for anything else. */
export function scalarText(node: unknown): string | undefined {
  return isScalar(node) ? String(node.value ?? '').trim() : undefined;
}
/** One text or a list of them. */
export function scalars(node: unknown): readonly Node[] {
  if (isScalar(node)) return [node];
  return isSeq(node) ? node.items.filter((item): item is Node => isScalar(item)) : [];
}

/** Where the written form of a node ends, without the comments and line ends behind it. */
export function endOf(node: Node): number {
  const end = node.range?.[1] ?? 0;
  if (isScalar(node)) return end;
  if ((isMap(node) || isSeq(node)) && node.flow !== true) {
    const last: unknown = node.items.at(-1);
    if (isPair(last)) return isNode(last.value) && width(last.value) > 0 ? endOf(last.value) : isNode(last.key) ? endOf(last.key) : end;
    if (isNode(last)) return endOf(last);
  }
  return end;
}
const width = (node: Node): number => (node.range ? node.range[1] - node.range[0] : 0);
export const startOf = (node: Node): number => node.range?.[0] ?? 0;

export const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;
/** Behind the end of the line that holds `at`. */
export function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

export type WirePlace = { readonly id: string; readonly node: YAMLMap; readonly from: string; readonly to: string; readonly index: number };

/** The wires in the order of the file, those without an id named as the reader names them. */
export function wirePlaces({ parts, wires }: Places): readonly WirePlace[] {
  const items = wires?.items ?? [];
  const last = new Map<string, number>();
  const taken = new Set(entriesOf(parts).map(keyText));
  const of = (item: unknown, key: string) => (isMap(item) ? scalarText(entryOf(item as YAMLMap, key)?.value) : undefined);
  for (const item of items) {
    const id = of(item, 'id');
    if (id) taken.add(id);
  }
  return items.flatMap((item, index) => {
    const [from, to] = [of(item, 'from') ?? '', of(item, 'to') ?? ''];
    const id = of(item, 'id') || idFromEnds(from, to, (name) => taken.has(name), last);
    taken.add(id);
    return isMap(item) ? [{ id, node: item as YAMLMap, from, to, index }] : [];
  });
}

/** The wire of an id, or the one that a section between connectors (`W7b`) belongs to. */
export function wirePlace(places: Places, id: string): WirePlace | undefined {
  const all = wirePlaces(places);
  return all.find((w) => w.id === id) ?? all.find((w) => id.startsWith(w.id) && /^[a-z]{1,2}$/.test(id.slice(w.id.length)));
}
