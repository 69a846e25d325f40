import { isMap, isNode, isPair, type Node, type YAMLMap, type YAMLSeq } from 'yaml';
import { type Entry, endOf, lineEnd, lineStart, startOf } from './places.ts';
import type { TextEdit } from './textEdit.ts';

/** Where an item of a map or a list stands: with its key, or with what is behind its dash. */
function spanOf(item: unknown): { readonly start: number; readonly end: number } {
  if (isPair(item)) {
    const key = item.key as Node;
    const value = item.value;
    return { start: startOf(key), end: isNode(value) && endOf(value) > endOf(key) ? endOf(value) : endOf(key) };
  }
  const node = item as Node;
  return { start: startOf(node), end: endOf(node) };
}

/** From the beginning of an item's first line behind its last one, with what stands behind it on that line. */
function linesOf(text: string, item: unknown): { readonly start: number; readonly end: number } {
  const { start, end } = spanOf(item);
  return { start: lineStart(text, start), end: lineEnd(text, end) };
}

/** Edits that put one more item at the end of a map or list. @param line the item in flow style, without dash or comma */
export function appended(text: string, container: YAMLMap | YAMLSeq, line: string): readonly TextEdit[] {
  const last: unknown = container.items.at(-1);
  if (container.flow === true) {
    const at = last === undefined ? startOf(container) + 1 : spanOf(last).end;
    return [{ from: at, to: at, insert: last === undefined ? ` ${line} ` : `, ${line}` }];
  }
  if (last === undefined) return [];
  const { end } = spanOf(last);
  const at = lineEnd(text, end);
  return newLine(text, at, leadOf(text, container) + line);
}

/** What stands before each item of a block: its indentation, and the dash of a list. */
function leadOf(text: string, container: YAMLMap | YAMLSeq): string {
  const { start } = spanOf(container.items[0]);
  const from = lineStart(text, start);
  if (isMap(container)) {
    // The first key of a map within a list stands behind the dash.
    const before = text.slice(from, start);
    return before.replace(/-/g, ' ');
  }
  const dash = text.lastIndexOf('-', start - 1);
  return `${text.slice(lineStart(text, dash), dash)}- `;
}

/** A line put in at an offset that begins a line, or at the end of a text whose last line has no end. */
export function newLine(text: string, at: number, line: string): readonly TextEdit[] {
  const broken = at > 0 && text[at - 1] !== '\n';
  return [{ from: at, to: at, insert: broken ? `\n${line}\n` : `${line}\n` }];
}

/** Edits that take items out. In a block whole lines go; the container itself becomes `{}` or `[]` when nothing is left. */
export function removed(text: string, container: YAMLMap | YAMLSeq, indices: readonly number[]): readonly TextEdit[] {
  const out = new Set(indices);
  const { items } = container;
  if (out.size === 0) return [];
  if (out.size >= items.length) return emptied(text, container);
  if (container.flow !== true)
    return [...out].map((k) => {
      const { start, end } = linesOf(text, items[k]);
      // The first key of a map within a list shares its line with the dash.
      const lead = text.slice(start, spanOf(items[k]).start);
      const next = items[k + 1];
      if (isMap(container) && lead.includes('-') && next !== undefined)
        return { from: spanOf(items[k]).start, to: spanOf(next).start, insert: '' };
      return { from: start, to: end, insert: '' };
    });
  // In flow style an item goes with the comma behind it; the last ones with the comma before them.
  const edits: TextEdit[] = [];
  let tail = items.length;
  while (tail > 0 && out.has(tail - 1)) tail--;
  for (const k of out) if (k < tail) edits.push({ from: spanOf(items[k]).start, to: spanOf(items[k + 1]).start, insert: '' });
  if (tail < items.length) edits.push({ from: spanOf(items[tail - 1]).end, to: spanOf(items.at(-1)).end, insert: '' });
  return edits;
}

function emptied(text: string, container: YAMLMap | YAMLSeq): readonly TextEdit[] {
  const none = isMap(container) ? '{}' : '[]';
  if (container.flow === true) return [{ from: startOf(container), to: endOf(container), insert: none }];
  const first = linesOf(text, container.items[0]).start;
  const last = linesOf(text, container.items.at(-1)).end;
  // Behind the colon of the line before, past its comment.
  const before = Math.max(0, first - 1);
  const line = text.slice(lineStart(text, before), before);
  const colon = lineStart(text, before) + line.search(/:\s*(#.*)?$/) + 1;
  return line.search(/:\s*(#.*)?$/) < 0
    ? [{ from: first, to: last, insert: '' }]
    : [
        { from: colon, to: colon, insert: ` ${none}` },
        { from: first, to: last, insert: '' },
      ];
}

/** Edits that write a value at a key: in place of what is there, or as a new entry. */
export function valueSet(text: string, map: YAMLMap, key: string, value: string, entry: Entry | undefined): readonly TextEdit[] {
  if (!entry) return appended(text, map, `${key}: ${value}`);
  const from = endOf(entry.key);
  const held = entry.value;
  const to = isNode(held) && endOf(held) > from ? endOf(held) : from;
  // JSON and quoted keys: what is between key and value stays when the value stands on the same line.
  const gap = isNode(held) && startOf(held) >= from ? text.slice(from, startOf(held)) : '';
  const colon = /^\s*:[ \t]+$/.test(gap) ? gap : ': ';
  const end = to === from ? from + (/^\s*:/.exec(text.slice(from))?.[0].length ?? 0) : to;
  return [{ from, to: Math.max(end, from), insert: `${colon}${value}` }];
}
