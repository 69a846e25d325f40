import { isMap, isSeq, type Node, type YAMLMap, type YAMLSeq } from 'yaml';
import { appended, newLine, removed, valueSet } from './containers.ts';
import { endOf, entriesOf, entryOf, keyText, lineStart, type Places, placesOf, scalars, startOf, wirePlace, wirePlaces } from './places.ts';
import { isPlaceText, renamedIn } from './references.ts';
import { disjoint, type TextEdit } from './textEdit.ts';
import { type Writable, yamlFlow, yamlText } from './written.ts';
import { entryLines } from './writtenPart.ts';

export type WireHeld = {
  readonly id?: string | undefined;
  readonly from: string;
  readonly to: string;
  readonly via?: readonly string[] | undefined;
  readonly area?: string | undefined;
  readonly length?: string | undefined;
  readonly colour?: string | undefined;
  readonly note?: string | undefined;
};

/** One guided step. All of them write the file's text; there is no other truth. */
export type Step =
  /** A key of the circuit itself: title, about, ambient, cautions, engine. Without a value it is taken out. */
  | { readonly do: 'head'; readonly key: string; readonly held: Writable | undefined }
  | { readonly do: 'part'; readonly id: string; readonly held: { readonly [key: string]: Writable | undefined } }
  | { readonly do: 'wire'; readonly wire: WireHeld }
  /** A parameter of a part or a key of a wire. Without a value it is taken out, and its default counts. */
  | { readonly do: 'set'; readonly id: string; readonly key: string; readonly held: Writable | undefined }
  | { readonly do: 'rename'; readonly id: string; readonly into: string }
  /** Parts with the wires that end there, or single wires. */
  | { readonly do: 'remove'; readonly ids: readonly string[] };

/**
 * The changes of the text that a step makes; comments and everything else stay as they are.
 * Undefined while the text is no YAML, or when the step names something that is not there or stands there already.
 */
export function stepEdits(text: string, step: Step): readonly TextEdit[] | undefined {
  if (text.trim() === '') return step.do === 'remove' || step.do === 'rename' ? undefined : beginning(text, step);
  const places = placesOf(text);
  if (!places) return undefined;
  switch (step.do) {
    case 'head':
      return headSet(places, step.key, step.held);
    case 'part':
      return idsIn(places).has(step.id) ? undefined : inTopMap(places, 'parts', step.id, step.held);
    case 'wire':
      return wireAdded(places, step.wire);
    case 'set':
      return keySet(places, step.id, step.key, step.held);
    case 'rename':
      return renamed(places, step.id, step.into);
    case 'remove':
      return takenOut(places, step.ids);
  }
}

/** The first step into an empty file brings its title along. */
function beginning(text: string, step: Exclude<Step, { do: 'remove' | 'rename' }>): readonly TextEdit[] | undefined {
  const start = step.do === 'head' ? '' : 'title: My circuit\n';
  const line =
    step.do === 'part'
      ? `parts:\n${entryLines(step.id, step.held, '  ')}\n`
      : step.do === 'head' && step.held !== undefined
        ? `${entryLines(step.key, step.held, '')}\n`
        : step.do === 'wire'
          ? `wires:\n  - ${yamlFlow(wireWritten(step.wire))}\n`
          : undefined;
  return line === undefined ? undefined : [{ from: 0, to: text.length, insert: start + line }];
}

/** Every id of the file. */
export function idsIn(places: Places): ReadonlySet<string> {
  return new Set([...entriesOf(places.parts).map(keyText), ...wirePlaces(places).map((w) => w.id)]);
}

/** The next free id of a letter: F4 after F3. */
export function nextId(letter: string, taken: ReadonlySet<string>): string {
  let most = 0;
  for (const id of taken) {
    const number = id.startsWith(letter) ? /^\d{1,6}$/.exec(id.slice(letter.length))?.[0] : undefined;
    if (number !== undefined) most = Math.max(most, Number(number));
  }
  return `${letter}${most + 1}`;
}

function headSet(places: Places, key: string, held: Writable | undefined): readonly TextEdit[] | undefined {
  const entry = entryOf(places.root, key);
  if (held === undefined) {
    const at = entriesOf(places.root).findIndex((e) => keyText(e) === key);
    return at < 0 ? [] : removed(places.text, places.root, [at]);
  }
  if (entry) return valueSet(places.text, places.root, key, yamlFlow(held), entry);
  if (places.root.flow === true || key === 'engine') return appended(places.text, places.root, `${yamlText(key)}: ${yamlFlow(held)}`);
  // The head of a circuit stands above its parts.
  const first = entriesOf(places.root).find((e) => ['parts', 'wires'].includes(keyText(e)));
  const before = key === 'title' ? entriesOf(places.root)[0] : first;
  const at = before ? lineStart(places.text, startOf(before.key)) : places.text.length;
  return newLine(places.text, at, entryLines(key, held, ''));
}

/** A new entry in `parts`, or a new item in `wires`, which may not be there yet, or be empty. */
function inTopMap(places: Places, key: 'parts', id: string, held: Writable): readonly TextEdit[] {
  const container = places[key];
  if (container && container.items.length > 0) {
    if (container.flow === true) return appended(places.text, container, `${yamlText(id)}: ${yamlFlow(held)}`);
    const lead = places.text.slice(lineStart(places.text, startOf(entriesOf(container)[0]!.key)), startOf(entriesOf(container)[0]!.key));
    return appended(places.text, container, entryLines(id, held, lead).slice(lead.length));
  }
  return startedWith(places, key, entryLines(id, held, '  '), `{ ${yamlText(id)}: ${yamlFlow(held)} }`);
}

function wireWritten({ id, from, to, via, area, length, colour, note }: WireHeld): Writable {
  const held = { id, from, to, area, length, colour, via: via && via.length > 0 ? via : undefined, note };
  return Object.fromEntries(Object.entries(held).filter(([, v]) => v !== undefined && v !== '')) as Writable;
}

function wireAdded(places: Places, wire: WireHeld): readonly TextEdit[] | undefined {
  if (wire.id !== undefined && wire.id !== '' && idsIn(places).has(wire.id)) return undefined;
  const line = yamlFlow(wireWritten(wire));
  const { wires } = places;
  if (wires && wires.items.length > 0) return appended(places.text, wires, line);
  return startedWith(places, 'wires', `  - ${line}`, `[${line}]`);
}

/** Puts the first entry under a key that is missing or holds nothing yet. */
function startedWith(places: Places, key: 'parts' | 'wires', line: string, flow: string): readonly TextEdit[] {
  const { text, root } = places;
  const entry = entryOf(root, key);
  if (root.flow === true) return entry ? valueSet(text, root, key, flow, entry) : appended(text, root, `${key}: ${flow}`);
  if (entry) {
    const from = endOf(entry.key);
    const held = entry.value;
    const colon = from + (/^\s*:/.exec(text.slice(from))?.[0].length ?? 0);
    const to = held && endOf(held) > startOf(held) ? endOf(held) : colon;
    return [{ from: colon, to, insert: `\n${line}` }];
  }
  // Wires stand behind the parts, before the engine.
  const engine = key === 'wires' ? entryOf(root, 'engine') : (entryOf(root, 'wires') ?? entryOf(root, 'engine'));
  const at = engine ? lineStart(text, startOf(engine.key)) : text.length;
  return newLine(text, at, `${key}:\n${line}`);
}

function mapOf(places: Places, id: string): YAMLMap | undefined {
  const part = entryOf(places.parts, id)?.value;
  return isMap(part) ? (part as YAMLMap) : wirePlace(places, id)?.node;
}

function keySet(places: Places, id: string, key: string, held: Writable | undefined): readonly TextEdit[] | undefined {
  const map = mapOf(places, id);
  if (!map) return undefined;
  const entries = entriesOf(map);
  const at = entries.findIndex((e) => keyText(e) === key);
  if (held === undefined) return at < 0 ? [] : removed(places.text, map, [at]);
  return valueSet(places.text, map, yamlText(key), yamlFlow(held), entries[at]);
}

function renamed(places: Places, id: string, into: string): readonly TextEdit[] | undefined {
  const ids = idsIn(places);
  if (!ids.has(id) || ids.has(into)) return undefined;
  const edits: TextEdit[] = [];
  const put = (node: Node, text: string) => edits.push({ from: startOf(node), to: endOf(node), insert: yamlText(text) });
  const part = entryOf(places.parts, id);
  if (part) put(part.key, into);
  for (const { node } of wirePlaces(places))
    for (const entry of entriesOf(node)) {
      const key = keyText(entry);
      if (key === 'id' && !part && scalars(entry.value).some((s) => textOf(s) === id)) put(entry.value as Node, into);
      if (!part || !['from', 'to', 'via'].includes(key)) continue;
      for (const place of scalars(entry.value)) if (isPlaceText(textOf(place), id)) put(place, into + textOf(place).slice(id.length));
    }
  // A wire without an id has no place where its name stands.
  if (!part && edits.length === 0) {
    const wire = wirePlace(places, id);
    return wire && [{ from: startOf(wire.node) + 1, to: startOf(wire.node) + 1, insert: ` id: ${yamlText(into)},` }];
  }
  for (const entry of entriesOf(places.engine)) for (const node of scalars(entry.value)) if (textOf(node) === id) put(node, into);
  for (const entry of entriesOf(places.parts)) {
    const needs = isMap(entry.value) ? entryOf(entry.value as YAMLMap, 'with') : undefined;
    for (const node of scalars(needs?.value))
      if (renamedIn(textOf(node), id, into) !== textOf(node)) put(node, renamedIn(textOf(node), id, into));
  }
  return disjoint(edits);
}

const textOf = (node: Node): string => String((node as { value?: unknown }).value ?? '').trim();

function takenOut(places: Places, ids: readonly string[]): readonly TextEdit[] | undefined {
  const { text, parts, wires, engine, root } = places;
  const gone = new Set(ids);
  const partsAt = entriesOf(parts).flatMap((e, k) => (gone.has(keyText(e)) ? [k] : []));
  const partIds = new Set(partsAt.map((k) => keyText(entriesOf(parts)[k]!)));
  const isLost = (end: string) => [...partIds].some((id) => isPlaceText(end, id));
  const all = wirePlaces(places);
  const wiresAt = all.flatMap((w) => (gone.has(w.id) || isLost(w.from) || isLost(w.to) ? [w.index] : []));
  if (partsAt.length === 0 && wiresAt.length === 0) return undefined;
  const edits: TextEdit[] = [];
  if (parts) edits.push(...removed(text, parts, partsAt));
  if (wires) edits.push(...removed(text, wires, wiresAt));
  // Other wires go on without a connector that went.
  for (const { node, index } of all) {
    const via = wiresAt.includes(index) ? undefined : entryOf(node, 'via');
    if (via) edits.push(...withoutScalars(places, node, ['via'], (t) => !isLost(t)));
  }
  // Phrases of what must be switched on lose those that named it.
  for (const entry of entriesOf(parts))
    if (isMap(entry.value) && !partIds.has(keyText(entry)))
      edits.push(
        ...withoutScalars(places, entry.value as YAMLMap, ['with'], (t) => [...partIds].every((id) => renamedIn(t, id, '') === t)),
      );
  if (engine) {
    const crank = scalars(entryOf(engine, 'crank')?.value).map(textOf);
    const at = entriesOf(root).findIndex((e) => keyText(e) === 'engine');
    if (crank.some((id) => partIds.has(id))) edits.push(...removed(text, root, [at]));
    else edits.push(...withoutScalars(places, engine, ['spark', 'fuel', 'stops', 'drives'], (t) => !partIds.has(t)));
  }
  return disjoint(edits);
}

/** Lists of texts without some of them. A key with nothing left goes; those that go together are taken out in one, for their commas. */
function withoutScalars(places: Places, map: YAMLMap, keys: readonly string[], keeps: (text: string) => boolean): readonly TextEdit[] {
  const edits: TextEdit[] = [];
  const gone: number[] = [];
  for (const [k, entry] of entriesOf(map).entries()) {
    if (!keys.includes(keyText(entry))) continue;
    const nodes = scalars(entry.value);
    const at = nodes.flatMap((n, j) => (keeps(textOf(n)) ? [] : [j]));
    if (at.length === 0) continue;
    if (isSeq(entry.value) && at.length < nodes.length) edits.push(...removed(places.text, entry.value as YAMLSeq, at));
    else gone.push(k);
  }
  return [...edits, ...removed(places.text, map, gone)];
}
