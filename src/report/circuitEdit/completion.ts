import { nextId } from '../../circuit/edit/steps.ts';
import { yamlFlow } from '../../circuit/edit/written.ts';
import type { Part, PartKind } from '../../circuit/part.ts';
import { commonKeys } from '../../circuit/shape.ts';
import { kindSheet, type ParameterSheet } from '../kindSheet.ts';
import { type Cursor, cursorAt } from './cursor.ts';
import { partsWritten } from './partsWritten.ts';
import { exampleOf, requiredHeld } from './requiredHeld.ts';

/** One thing that can be put at the cursor. */
export type Completion = {
  /** What is put in place of the word, unless `apply` says more. */
  readonly label: string;
  readonly apply?: string;
  /** A few words beside it. */
  readonly detail?: string;
  readonly info?: string;
};
export type Completions = { readonly from: number; readonly options: readonly Completion[] };

const topKeys: readonly (readonly [string, string])[] = [
  ['title', 'heading of tables and drawings'],
  ['about', 'two lines for the reader'],
  ['ambient', 'temperature of the wires, 20 °C unless said'],
  ['cautions', 'a list of sentences'],
  ['parts', 'each part: its id, a colon, and its kind'],
  ['wires', 'a list of wires'],
  ['engine', 'what cranks it and what it needs to run'],
];
const engineKeys: readonly (readonly [string, string])[] = [
  ['crank', 'the part that turns it'],
  ['spark', 'parts that make the spark'],
  ['fuel', 'parts that bring the fuel'],
  ['stops', 'parts that stop it while they work'],
  ['drives', 'what it turns: the alternator'],
];
/** Sizes that are sold, mm² (ISO 6722 series, from memory), and colour letters of IEC 60757. */
const areas = ['0.5', '0.75', '1', '1.5', '2.5', '4', '6', '10', '16', '25', '35', '50'].map((n) => `${n} mm²`);
const colours = 'BK BN RD OG YE GN BU VT GY WH PK TQ'.split(' ');

/**
 * What can stand at a place of a circuit file: kinds, parameters, words, ids and terminals. Works while the line is broken.
 *
 * @param known parts of the last circuit that was read, for when the text of now cannot be taken apart
 */
export function completionsAt(
  text: string,
  offset: number,
  kinds: readonly PartKind[],
  known: ReadonlyMap<string, Part> = new Map(),
): Completions | undefined {
  const cursor = cursorAt(text, offset);
  if (!cursor) return undefined;
  const written = partsWritten(text, offset, kinds);
  const parts = [...(written.size > 0 ? written : known).values()].filter((p) => p.kind.isWire !== true);
  const options = optionsFor(cursor, kinds, parts);
  return options.length === 0 ? undefined : { from: offset - cursor.word.length, options };
}

function optionsFor(cursor: Cursor, kinds: readonly PartKind[], parts: readonly Part[]): readonly Completion[] {
  switch (cursor.in) {
    case 'top':
      return topKeys.map(([label, detail]) => ({ label, detail, apply: `${label}:${['parts', 'wires'].includes(label) ? '\n  ' : ' '}` }));
    case 'part id':
      return newIds(kinds, parts);
    case 'part key':
      return partKeys(cursor.entry, kinds);
    case 'part value':
      return cursor.deep ? [] : partValues(cursor.key, cursor.entry, kinds);
    case 'wire key':
      return wireKeys(cursor.entry, kinds);
    case 'wire value':
      return wireValues(cursor.key, cursor.word, parts);
    case 'engine key':
      return engineKeys
        .filter(([key]) => !new RegExp(`\\b${key}:`).test(cursor.entry))
        .map(([label, detail]) => ({ label, detail, apply: `${label}: ` }));
    case 'engine value':
      return parts.map(partOption);
    case 'elsewhere':
      return [];
  }
}

const partOption = (part: Part): Completion => ({ label: part.id, detail: part.name ?? part.kind.title });

/** The next free id of each letter, with the kinds that use it. */
function newIds(kinds: readonly PartKind[], parts: readonly Part[]): readonly Completion[] {
  const taken = new Set(parts.map((p) => p.id));
  return kinds
    .filter((kind) => kind.isWire !== true)
    .map((kind) => {
      const id = nextId(kind.letter, taken);
      return { label: `${id}: ${kind.kind}`, apply: `${id}: ${yamlFlow(requiredHeld(kind.kind, kinds))}`, detail: kind.about };
    });
}

const kindOf = (entry: string, kinds: readonly PartKind[]): PartKind | undefined =>
  kinds.find((k) => k.kind === /\bkind:\s*["']?([\w-]+)/.exec(entry)?.[1]);

function partKeys(entry: string, kinds: readonly PartKind[]): readonly Completion[] {
  const kind = kindOf(entry, kinds);
  const has = (key: string) => new RegExp(`(^|[\\s{,])${key}:`).test(entry.slice(entry.indexOf(':') + 1));
  if (!kind && !has('kind')) return [{ label: 'kind', apply: 'kind: ', detail: 'what it is' }];
  const own = kind
    ? kindSheet(kind)
        .parameters.filter((p) => !has(p.name))
        .map(parameterOption)
    : [];
  return [
    ...own,
    ...commonKeys.filter((key) => !has(key)).map((key) => ({ label: key, apply: `${key}: `, detail: commonAbout[key] ?? '' })),
  ];
}

const commonAbout: Readonly<Record<string, string>> = {
  name: 'what people call it',
  place: 'where it sits',
  note: 'for the reader',
  load: 'yes: it has a row in the position table',
  with: 'what must be switched on for its row',
  minutes: 'minutes to reach it',
};

function parameterOption(p: ParameterSheet): Completion {
  const standard = p.default === undefined ? (p.required ? 'must be given' : '') : `else ${p.default}`;
  return {
    label: p.name,
    apply: `${p.name}: `,
    detail: [p.about, standard].filter((t) => t !== '').join('; '),
    info: [`written: ${p.written}`, ...(p.source === undefined ? [] : [`default by: ${p.source}`])].join('\n'),
  };
}

function partValues(key: string, entry: string, kinds: readonly PartKind[]): readonly Completion[] {
  if (key === 'kind') return kinds.filter((k) => k.isWire !== true).map((k) => ({ label: k.kind, detail: k.about }));
  if (key === 'load') return [{ label: 'yes' }, { label: 'no' }];
  const kind = kindOf(entry, kinds);
  const parameter = kind && Object.hasOwn(kind.parameters, key) ? kind.parameters[key] : undefined;
  if (!kind || !parameter) return [];
  if (parameter.as === 'word')
    return parameter.words.map((label) => ({ label, ...(label === parameter.default && { detail: 'the default' }) }));
  if (parameter.as === 'flag')
    return ['yes', 'no'].map((label) => ({ label, ...((label === 'yes') === parameter.default && { detail: 'the default' }) }));
  const sheet = kindSheet(kind).parameters.find((p) => p.name === key);
  const example = yamlFlow(exampleOf(parameter));
  const standard = sheet?.default;
  return [
    ...(standard === undefined || parameter.as === 'form'
      ? []
      : [{ label: standard, detail: 'the default', ...(sheet?.source !== undefined && { info: sheet.source }) }]),
    ...(example === standard ? [] : [{ label: example, detail: `example: ${sheet?.written ?? ''}` }]),
  ];
}

function wireKeys(entry: string, kinds: readonly PartKind[]): readonly Completion[] {
  const wire = kinds.find((k) => k.isWire === true);
  const has = (key: string) => new RegExp(`(^|[\\s{,-])${key}:`).test(entry);
  const ends: readonly Completion[] = [
    { label: 'id', apply: 'id: ', detail: 'W and a number' },
    { label: 'from', apply: 'from: ', detail: 'terminal where it begins' },
    { label: 'to', apply: 'to: ', detail: 'terminal where it ends' },
    { label: 'via', apply: 'via: [', detail: 'connector pins that it passes' },
  ];
  const own = wire ? kindSheet(wire).parameters.map(parameterOption) : [];
  return [...ends, ...own, { label: 'note', apply: 'note: ', detail: 'for the reader' }].filter(({ label }) => !has(label));
}

function wireValues(key: string, word: string, parts: readonly Part[]): readonly Completion[] {
  if (key === 'area') return areas.map((label) => ({ label }));
  if (key === 'length') return [{ label: 'unknown', detail: '1 m is taken, and marked as a guess' }];
  if (key === 'colour') return colours.map((label) => ({ label }));
  if (key === 'via')
    return parts.flatMap((part) => {
      const names = part.kind.terminals(part).map((t) => t.name);
      const pins = names.filter((n) => n.endsWith('a') && names.includes(`${n.slice(0, -1)}b`)).map((n) => n.slice(0, -1));
      return pins.map((pin) => ({ label: `${part.id}.${pin}`, detail: part.name ?? part.kind.title }));
    });
  if (key !== 'from' && key !== 'to') return [];
  const dot = word.indexOf('.');
  const only = dot < 0 ? undefined : word.slice(0, dot);
  const ends = parts.flatMap((part) => {
    if (only !== undefined && part.id !== only) return [];
    const terminals = part.kind.terminals(part);
    if (terminals.length === 1) return [partOption(part)];
    const what = part.name ?? part.kind.title;
    return terminals.map((t) => ({ label: `${part.id}.${t.name}`, detail: t.about === undefined ? what : `${what}, ${t.about}` }));
  });
  const common =
    only === undefined
      ? [
          { label: 'ground', detail: 'the body' },
          { label: 'block', detail: 'the engine block' },
        ]
      : [];
  return [...ends, ...common];
}
