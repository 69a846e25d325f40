import type { Part, PartKind } from '../../circuit/part.ts';
import { quantityText } from '../../circuit/quantity.ts';
import { kindSheet, type ParameterSheet } from '../kindSheet.ts';
import { cursorAt } from './cursor.ts';
import { partsWritten } from './partsWritten.ts';

/** What is told of the word under the pointer. Plain text; the first line is a heading. */
export type Hover = { readonly from: number; readonly to: number; readonly title: string; readonly lines: readonly string[] };

/** What a part, a kind or a parameter is, at a place of the text; undefined where there is nothing to tell. */
export function hoverAt(text: string, offset: number, kinds: readonly PartKind[]): Hover | undefined {
  const isWord = (sign: string | undefined) => sign !== undefined && /[^\s{}[\],:"'#]/.test(sign);
  let [from, to] = [offset, offset];
  while (from > 0 && isWord(text[from - 1])) from--;
  while (to < text.length && isWord(text[to])) to++;
  const word = text.slice(from, to);
  if (word === '') return undefined;
  const cursor = cursorAt(text, to);
  if (!cursor) return undefined;
  const place = { from, to };
  const kindNamed = cursor.in === 'part value' && cursor.key === 'kind' ? kinds.find((k) => k.kind === word) : undefined;
  if (kindNamed) return { ...place, ...ofKind(kindNamed) };
  const parts = partsWritten(text, offset, kinds);
  const part = parts.get(word) ?? parts.get(word.split('.', 1)[0] ?? '');
  if (part && cursor.in !== 'part key') return { ...place, ...ofPart(part, word.slice(part.id.length + 1)) };
  const isKey = /^\s*:/.test(text.slice(to));
  const owner = isKey && 'id' in cursor ? parts.get(cursor.id)?.kind : cursor.in === 'wire key' ? kinds.find((k) => k.isWire) : undefined;
  const sheet = owner && kindSheet(owner).parameters.find((p) => p.name === word);
  return sheet && { ...place, title: sheet.name, lines: parameterLines(sheet) };
}

function ofKind(kind: PartKind): Pick<Hover, 'title' | 'lines'> {
  const sheet = kindSheet(kind);
  const terminals = sheet.terminals.map((t) => (t.about === undefined ? t.name : `${t.name} (${t.about})`));
  return {
    title: sheet.title,
    lines: [
      sheet.about,
      ...(terminals.length > 0 ? [`terminals: ${terminals.join(', ')}`] : []),
      ...sheet.parameters.map(
        (p) => `${p.name}: ${p.default === undefined ? (p.required ? 'must be given' : p.about) : `${p.default} unless said`}`,
      ),
    ],
  };
}

function ofPart(part: Part, terminal: string): Pick<Hover, 'title' | 'lines'> {
  const terminals = part.kind.terminals(part);
  const at = terminals.find((t) => t.name === terminal);
  const own = kindSheet(part.kind).parameters.map((p) => {
    const held = part.params[p.name];
    const parameter = part.kind.parameters[p.name];
    if (part.given.has(p.name))
      return `${p.name}: ${parameter?.as === 'quantity' && typeof held === 'number' ? quantityText(held, parameter.dimension) : 'as written'}`;
    return p.default === undefined ? undefined : `${p.name}: ${p.default}, not given${p.source === undefined ? '' : ` (${p.source})`}`;
  });
  return {
    title: `${part.id}${part.name === undefined ? '' : ` ${part.name}`}, ${part.kind.title}`,
    lines: [
      ...(at ? [`terminal ${at.name}${at.about === undefined ? '' : `: ${at.about}`}`] : []),
      `terminals: ${terminals.map((t) => t.name).join(', ')}`,
      ...own.filter((line): line is string => line !== undefined),
    ],
  };
}

function parameterLines(p: ParameterSheet): readonly string[] {
  return [
    p.about,
    `written: ${p.written}`,
    ...(p.default === undefined ? [p.required ? 'must be given' : 'may be left out'] : [`else ${p.default}`]),
    ...(p.source === undefined ? [] : [`by: ${p.source}`]),
  ];
}
