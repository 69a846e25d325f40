import { isMap, isScalar, isSeq, type Node } from 'yaml';
import { type Entry, entriesOf, keyText, placesOf, scalars, scalarText } from '../edit/places.ts';
import { type Writable, yamlFlow } from '../edit/written.ts';
import { csvLine, type Separator } from './csv.ts';

export type ListStyle = { readonly separator: Separator; readonly decimal: '.' | ',' };

/** Heads of the three tables; the reader knows them again. */
export const wireHeads = {
  id: 'wire',
  from: 'from',
  to: 'to',
  via: 'via',
  colour: 'colour',
  area: 'area (mm²)',
  length: 'length (m)',
  note: 'note',
} as const;
export const partHeads = ['part', 'kind', 'name', 'place', 'parameters'] as const;
export const headHeads = ['circuit', 'value'] as const;

/**
 * A circuit file as a table for a spreadsheet: the wires, then the parts, then what belongs to the circuit as a whole,
 * parted by empty lines. Read back by `readWireList` it is the same circuit; comments and the layout of the file are not kept.
 *
 * @param text a circuit file that reads without errors
 * @returns undefined when it is no YAML with a map on top
 */
export function writeWireList(text: string, style: ListStyle): string | undefined {
  const places = placesOf(text);
  if (!places) return undefined;
  const line = (cells: readonly string[]) => csvLine(cells, style.separator);
  const wires = (places.wires?.items ?? []).filter(isMap).map((item) => entriesOf(item as never));
  const usual = Object.keys(wireHeads);
  const more = [...new Set(wires.flatMap((entries) => entries.map(keyText)))].filter((key) => !usual.includes(key));
  const out = [line([...Object.values(wireHeads), ...more])];
  for (const entries of wires) {
    const held = (key: string) => entries.find((e) => keyText(e) === key)?.value ?? undefined;
    const number = (key: string, unit: RegExp) => {
      const written = scalarText(held(key)) ?? '';
      const plain = unit.exec(written)?.[1];
      return plain === undefined ? written : plain.replace('.', style.decimal);
    };
    out.push(
      line([
        ...(['id', 'from', 'to'] as const).map((key) => scalarText(held(key)) ?? ''),
        scalars(held('via')).map(scalarText).join(' '),
        scalarText(held('colour')) ?? '',
        number('area', /^(\d+(?:\.\d+)?) mm²$/),
        number('length', /^(\d+(?:\.\d+)?) m$/),
        scalarText(held('note')) ?? '',
        ...more.map((key) => cellOf(held(key))),
      ]),
    );
  }
  out.push('', line(partHeads));
  for (const part of entriesOf(places.parts)) {
    const entries = isMap(part.value) ? entriesOf(part.value as never) : [];
    const held = (key: string) => scalarText(entries.find((e) => keyText(e) === key)?.value) ?? '';
    const rest = entries.filter((e) => !['kind', 'name', 'place'].includes(keyText(e)));
    out.push(line([keyText(part), held('kind'), held('name'), held('place'), rest.length === 0 ? '' : inner(rest)]));
  }
  out.push('', line(headHeads));
  for (const entry of entriesOf(places.root)) {
    if (['parts', 'wires'].includes(keyText(entry))) continue;
    out.push(line([keyText(entry), cellOf(entry.value)]));
  }
  return `${out.join('\r\n')}\r\n`;
}

/** Parameters as in the file, without the outer brackets: `rating: 8 A, form: blade`. */
function inner(entries: readonly Entry[]): string {
  return entries.map((e) => yamlFlow({ [keyText(e)]: plain(e.value) }).slice(2, -2)).join(', ');
}

/** A text as it is, anything else in flow style. */
function cellOf(node: Node | null | undefined): string {
  const what = plain(node);
  return typeof what === 'string' ? what : yamlFlow(what);
}

function plain(node: unknown): Writable {
  if (isScalar(node)) return String(node.value ?? '').trim();
  if (isSeq(node)) return node.items.map(plain);
  if (isMap(node)) return Object.fromEntries(entriesOf(node as never).map((e) => [keyText(e), plain(e.value)]));
  return '';
}
