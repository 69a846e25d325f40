import { isAlias, isMap, isScalar, isSeq, type Node, type ParsedNode } from 'yaml';
import { hiddenCharacters } from './hiddenCharacters.ts';
import type { Placed, PlacedEntry, PlacedMap, Span, Tell } from './placed.ts';

/** Names that every object of the language carries; as ids they would be found in tables where nobody put them. */
const reserved = new Set([...Object.getOwnPropertyNames(Object.prototype), 'prototype']);
const hidden = new RegExp(`[${hiddenCharacters}]`);

/** The file that is being read. */
export type Source = { readonly text: string; readonly tell: Tell; readonly lineOf: (offset: number) => number };

/**
 * Turns the parsed file into plain placed data and tells what a circuit file must not hold: aliases, anchors, tags,
 * merge keys, names twice, names with a meaning of their own, hidden characters.
 */
export function placedTree(node: ParsedNode | Node, source: Source, path: readonly string[] = []): Placed {
  const { tell } = source;
  const span = { start: node.range?.[0] ?? 0, end: node.range?.[1] ?? 0 };
  if (isAlias(node)) {
    tell(span, refused('alias', `\`*${node.source}\` repeats another place of the file`, 'write the repeated text out in full'));
    return { is: 'text', text: '', span, told: true };
  }
  tellMarks(node, span, source);
  if (isMap(node)) return placedMap(node.items as readonly { key: unknown; value: unknown }[], span, source, path);
  if (isSeq(node)) {
    const items = node.items.map((item) =>
      isNodeLike(item) ? placedTree(item, source, [...path, '-']) : { is: 'text' as const, text: '', span },
    );
    return { is: 'list', items, span };
  }
  const text = isScalar(node) ? String(node.value ?? '') : '';
  const found = hidden.exec(text);
  if (found) {
    const quoted = source.text.slice(span.start, span.end).includes('\\');
    tell(span, {
      code: 'hidden-character',
      what: `this text holds U+${found[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}, a character that cannot be seen`,
      why: 'a hidden character can change how the text shows on a screen or on paper',
      mend: [quoted ? 'in double quotes a backslash begins a special sign; single quotes take it as it is' : 'write the text anew'],
    });
  }
  return { is: 'text', text: text.trim(), span };
}

/** Anchors and tags stand before their node, so the place is looked up in the text. */
function tellMarks(node: Node, span: Span, { text, tell }: Source): void {
  if ('anchor' in node && typeof node.anchor === 'string') {
    const mark = `&${node.anchor}`;
    const at = text.lastIndexOf(mark, span.start);
    tell({ start: at, end: at + mark.length }, refused('anchor', `\`${mark}\` marks this place for repeating`, `leave \`${mark}\` out`));
  }
  if (node.tag === undefined) return;
  const tag = node.tag.replace('tag:yaml.org,2002:', '!!');
  const at = text.lastIndexOf(tag, span.start);
  tell(
    at < 0 ? span : { start: at, end: at + tag.length },
    refused('tag', `\`${tag}\` gives a type to this place`, `leave \`${tag}\` out; types follow from the key`),
  );
}

function placedMap(items: readonly { key: unknown; value: unknown }[], span: Span, source: Source, path: readonly string[]): PlacedMap {
  const { tell, lineOf } = source;
  const entries = new Map<string, PlacedEntry>();
  let told = false;
  for (const { key, value } of items) {
    const keySpan = isNodeLike(key) ? { start: key.range?.[0] ?? span.start, end: key.range?.[1] ?? span.start } : span;
    if (!isScalar(key)) {
      tell(keySpan, {
        code: 'key-not-text',
        what: 'a list, a map or an alias stands where a name belongs',
        why: 'what follows it belongs to nothing',
        mend: ['write one word before the colon'],
      });
      told = true;
      continue;
    }
    tellMarks(key, keySpan, source);
    const name = String(key.value ?? '');
    if (name === '<<') {
      tell(keySpan, refused('merge', '`<<` would take over the entries of another place', 'write the entries out in full'));
      told = true;
      continue;
    }
    if (reserved.has(name)) {
      tell(keySpan, {
        code: 'reserved-name',
        what: `\`${name}\` cannot be a name here`,
        why: 'the name has a meaning of its own in the language that Detent is written in',
        mend: ['choose another name'],
      });
      told = true;
      continue;
    }
    const first = entries.get(name);
    const node = isNodeLike(value)
      ? placedTree(value, source, [...path, name])
      : { is: 'text' as const, text: '', span: { start: keySpan.end, end: keySpan.end } };
    if (first) tell(keySpan, twice(name, lineOf(first.keySpan.start), path.join() === 'parts'));
    else entries.set(name, { key: name, keySpan, node });
  }
  return { is: 'map', entries, span, ...(told ? { told: true as const } : {}) };
}

function isNodeLike(value: unknown): value is Node {
  return typeof value === 'object' && value !== null;
}

function twice(name: string, line: number, isId: boolean): Parameters<Tell>[1] {
  return {
    code: isId ? 'duplicate-id' : 'duplicate-key',
    what: isId
      ? `the id \`${name}\` is taken already, on line ${line}`
      : `\`${name}\` stands here for the second time; the first is on line ${line}`,
    why: isId ? 'wires, faults and findings that name it could mean either part' : 'only one of the two can count, and nothing says which',
    mend: [isId ? 'choose another id' : 'leave one of them out'],
  };
}

function refused(which: 'alias' | 'anchor' | 'tag' | 'merge', what: string, mend: string): Parameters<Tell>[1] {
  return {
    code: `yaml-${which}`,
    what,
    why: 'a circuit file says everything where it is read; anchors, aliases, tags and merge keys are not read',
    mend: [mend],
  };
}
