/** Where in a circuit file a cursor stands, from the text before it; works while the text is broken. */
export type Cursor =
  | { readonly in: 'top'; readonly word: string }
  | { readonly in: 'part id'; readonly word: string }
  /** A key of a part, at the first level: `entry` is the text of its entry so far as it can be seen. */
  | { readonly in: 'part key'; readonly word: string; readonly id: string; readonly entry: string }
  | {
      readonly in: 'part value';
      readonly word: string;
      readonly id: string;
      readonly key: string;
      readonly entry: string;
      readonly deep: boolean;
    }
  | { readonly in: 'wire key'; readonly word: string; readonly entry: string }
  | { readonly in: 'wire value'; readonly word: string; readonly key: string; readonly entry: string }
  | { readonly in: 'engine key'; readonly word: string; readonly entry: string }
  | { readonly in: 'engine value'; readonly word: string; readonly key: string }
  | { readonly in: 'elsewhere'; readonly word: string };

/** @returns undefined within a comment */
export function cursorAt(text: string, offset: number): Cursor | undefined {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  const before = text.slice(start, offset);
  if (/(^|\s)#/.test(before.replace(/"[^"]*"|'[^']*'/g, ''))) return undefined;
  const word = /[^\s{}[\],:"']*$/.exec(before)?.[0] ?? '';
  const indent = /^ */.exec(before)![0].length;
  if (/^[^\s#-][^:]*$/.test(before) || before === '') return { in: 'top', word };
  const section = sectionAt(text, start, before);
  if (section === 'parts') return inParts(text, start, before, indent, word);
  if (section === 'wires') return inWires(text, start, offset, before, word);
  if (section === 'engine') {
    const entry = before.replace(/^engine:/, '');
    const key = /(\w+):\s*(\[[^\]]*)?$/.exec(entry.slice(0, entry.length - word.length))?.[1];
    return key === undefined ? { in: 'engine key', word, entry } : { in: 'engine value', word, key };
  }
  return { in: 'elsewhere', word };
}

/** The key at the beginning of a line that this line belongs to. */
function sectionAt(text: string, start: number, before: string): string {
  const own = /^([\w-]+):/.exec(before)?.[1];
  if (own !== undefined) return own;
  for (let at = start; at > 0; ) {
    const from = text.lastIndexOf('\n', at - 2) + 1;
    const key = /^([\w-]+):/.exec(text.slice(from, at))?.[1];
    if (key !== undefined) return key;
    at = from;
  }
  return '';
}

/** The line at which the entry of a block map begins: the nearest one above with that indentation. */
function lineAbove(text: string, start: number, indent: number): number | undefined {
  for (let at = start; at > 0; ) {
    const from = text.lastIndexOf('\n', at - 2) + 1;
    const line = text.slice(from, at - 1);
    const depth = /^ */.exec(line)![0].length;
    if (line.trim() !== '' && !line.trim().startsWith('#')) {
      if (depth === indent) return from;
      if (depth < indent) return undefined;
    }
    at = from;
  }
  return undefined;
}

/** Indentation of the ids: that of the first entry below `parts:`. */
function idIndent(text: string, start: number): number {
  const parts = /^parts:.*\n(?:\s*(?:#.*)?\n)*( +)\S/m.exec(text);
  return parts && parts.index < start ? parts[1]!.length : 2;
}

function inParts(text: string, start: number, before: string, indent: number, word: string): Cursor {
  const idDepth = idIndent(text, start);
  if (indent <= idDepth && !before.includes(':')) return { in: 'part id', word };
  const from = indent <= idDepth ? start : (lineAbove(text, start, idDepth) ?? start);
  const id = /^\s*([^\s:]+)\s*:/.exec(text.slice(from, text.indexOf('\n', from) < 0 ? text.length : text.indexOf('\n', from)))?.[1] ?? '';
  const upTo = text.slice(from, start + before.length - word.length);
  const rest = text.slice(start + before.length, entryEnd(text, start, idDepth));
  const entry = text.slice(from, start + before.length) + rest;
  const inner = upTo.slice(upTo.indexOf(':') + 1);
  const depth = nesting(inner);
  // In block style a key stands at the beginning of its line; deeper lines belong to a value.
  const isBlock = indent > idDepth;
  const ownKey = /(?:^|[{,]|\n)\s*([\w-]+):[ \t]*$/.exec(inner)?.[1];
  if (ownKey !== undefined && depth <= 1) return { in: 'part value', word, id, key: ownKey, entry, deep: false };
  const outer = keyAround(inner);
  if (depth > 1 || (isBlock && depth >= 1 && outer !== undefined))
    return { in: 'part value', word, id, key: outer ?? ownKey ?? '', entry, deep: true };
  const list = /([\w-]+):\s*\[[^\]]*$/.exec(inner)?.[1];
  if (list !== undefined) return { in: 'part value', word, id, key: list, entry, deep: false };
  const typed = /([\w-]+):[ \t]+[^,{}[\]\n]*$/.exec(inner)?.[1];
  if (typed !== undefined && inner.trimEnd() !== inner.trim().replace(/[{,]$/, ''))
    return { in: 'part value', word, id, key: typed, entry, deep: false };
  return { in: 'part key', word, id, entry };
}

function entryEnd(text: string, start: number, idDepth: number): number {
  let at = text.indexOf('\n', start);
  while (at >= 0) {
    const line = /^( *)(\S)?/.exec(text.slice(at + 1, at + 200))!;
    if (line[2] !== undefined && line[2] !== '#' && line[1]!.length <= idDepth) return at;
    at = text.indexOf('\n', at + 1);
  }
  return text.length;
}

function nesting(text: string): number {
  let depth = 0;
  for (const sign of text.replace(/"[^"\n]*"|'[^'\n]*'/g, ''))
    depth += sign === '{' || sign === '[' ? 1 : sign === '}' || sign === ']' ? -1 : 0;
  return depth;
}

/** The key before the bracket that is open at the end of a text and lies inside the outermost one. */
function keyAround(text: string): string | undefined {
  const open: (string | undefined)[] = [];
  for (const m of text.matchAll(/([\w-]+):\s*[{[]|[{[]|[}\]]/g)) {
    if (/[}\]]$/.test(m[0])) open.pop();
    else open.push(m[1]);
  }
  return open.filter((key) => key !== undefined).at(0);
}

function inWires(text: string, start: number, offset: number, before: string, word: string): Cursor {
  const dash = /^\s*-/.test(before) ? start : text.slice(0, start).search(/\n\s*-[^\n]*\n(?:(?!\s*-)[^\n]*\n)*$/);
  const from = dash < 0 ? start : dash;
  const end = text.indexOf('\n', offset);
  const entry = text.slice(from, end < 0 ? text.length : end);
  const upTo = text.slice(from, offset - word.length);
  const list = /([\w-]+):\s*\[[^\]]*$/.exec(upTo)?.[1];
  const key = list ?? /([\w-]+):[ \t]+[^,{}[\]\n]*$/.exec(upTo)?.[1];
  return key === undefined ? { in: 'wire key', word, entry } : { in: 'wire value', word, key, entry };
}
