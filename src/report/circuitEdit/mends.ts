import { isMap, type YAMLMap } from 'yaml';
import { removed } from '../../circuit/edit/containers.ts';
import { entriesOf, keyText, type Places, placesOf, startOf, wirePlaces } from '../../circuit/edit/places.ts';
import { idsIn, nextId, type Step, stepEdits } from '../../circuit/edit/steps.ts';
import type { TextEdit } from '../../circuit/edit/textEdit.ts';
import { yamlText } from '../../circuit/edit/written.ts';
import { kindsFitting } from '../../circuit/guess/kindsFitting.ts';
import type { PartKind } from '../../circuit/part.ts';
import type { Problem } from '../../circuit/problem.ts';
import { idOf } from '../../circuit/wireList/ends.ts';
import { requiredHeld } from './requiredHeld.ts';

/** A mend that a button can apply: what the button says, and what it changes. */
export type Mend = { readonly label: string; readonly edits: readonly TextEdit[] };

/** Most buttons of one problem: more is a list to read, not a choice. */
const most = 4;

/**
 * What could be done about a problem of a circuit file, as changes of its text. Only where the problem says what would
 * be right: near names, a unit, a point for a comma, what is missing. Each leaves the rest of the text as it is.
 */
export function mendsOf(problem: Problem, text: string, kinds: readonly PartKind[]): readonly Mend[] {
  return mendsOfAll([problem], text, kinds)[0]!;
}

/** The same for several problems of one text, which is taken apart once. */
export function mendsOfAll(problems: readonly Problem[], text: string, kinds: readonly PartKind[]): readonly (readonly Mend[])[] {
  let places: Places | undefined | null = null;
  const placesNow = () => {
    places = places === null ? placesOf(text) : places;
    return places;
  };
  return problems.map((problem) => ofOne(problem, text, kinds, placesNow));
}

type PlacesNow = () => Places | undefined;

function ofOne(problem: Problem, text: string, kinds: readonly PartKind[], placesNow: PlacesNow): readonly Mend[] {
  const from = offsetOf(text, problem.line, problem.column);
  const to = Math.min(text.length, from + problem.length);
  const here = text.slice(from, to);
  const put = (insert: string, label = `write ${insert}`): Mend => ({ label, edits: [{ from, to, insert }] });
  return [...wordMends(problem, here, put), ...placeMends(problem, text, { from, to, here }, kinds, placesNow)].slice(0, most);
}

/** Mends whose text stands in the problem itself. */
function wordMends({ code, mend }: Problem, here: string, put: (insert: string, label?: string) => Mend): readonly Mend[] {
  const named = (line: string) => [...line.matchAll(/`([^`]+)`/g)].map((m) => m[1]!);
  switch (code) {
    case 'unknown-kind':
    case 'unknown-key':
    case 'unknown-word':
    case 'unknown-terminal':
    case 'terminal-missing':
    case 'unknown-pin':
    case 'unknown-part': {
      const lines = mend.filter((m) => /^(terminals|pins|words|kinds|keys|parts)( with a near name)?: /.test(m));
      const isNear = lines.some((m) => m.includes('near name'));
      const names = lines.filter((m) => !isNear || m.includes('near name')).flatMap(named);
      if (code === 'unknown-key' && !isNear) return [];
      // A near part keeps the terminal that was written.
      const whole = (name: string) => (code === 'unknown-part' && here.includes('.') ? name + here.slice(here.indexOf('.')) : name);
      const body = mend.some((m) => m.startsWith('the body of the vehicle')) ? ['ground', 'block'] : [];
      return [...names.map((name) => put(whole(name))), ...body.map((name) => put(name))];
    }
    case 'decimal-comma':
      return mend.flatMap(named).map((written) => put(written));
    case 'missing-unit': {
      const units = /^units: ([^;]*)/.exec(mend.find((m) => m.startsWith('units: ')) ?? '')?.[1]?.split(', ') ?? [];
      return units.slice(0, 2).map((unit) => put(`${here} ${unit}`.replace(' °', unit === '°' ? '°' : ' °')));
    }
    case 'unknown-unit': {
      const near = mend.flatMap((m) => /^`([^`]+)` is near/.exec(m)?.[1] ?? []);
      return near.map((unit) => put(here.replace(/\S+$/, unit)));
    }
    case 'not-yes-or-no':
      return [put('yes'), put('no')];
    default:
      return [];
  }
}

type Here = { readonly from: number; readonly to: number; readonly here: string };

/** Mends that need to know what stands where. */
function placeMends(
  { code, what }: Problem,
  text: string,
  { from, to, here }: Here,
  kinds: readonly PartKind[],
  placesNow: PlacesNow,
): readonly Mend[] {
  if (code === 'not-yaml' && what.includes('a tab stands')) return [untabbed(text)];
  const step = (label: string, ...steps: readonly Step[]): readonly Mend[] => {
    const edits = steps.length === 1 ? stepEdits(text, steps[0]!) : undefined;
    return edits && edits.length > 0 ? [{ label, edits }] : [];
  };
  if (code === 'empty-file')
    return [
      { label: 'begin a circuit', edits: [{ from: 0, to: text.length, insert: 'title: My circuit\nparts:\n  G1: { kind: battery }\n' }] },
    ];
  const places = placesNow();
  if (!places) return [];
  const taken = idsIn(places);
  const id = partAt(places, from);
  switch (code) {
    case 'unknown-part': {
      if (!/^[\p{L}\p{N}]+\.\S+$|^[A-Z]+\d+$/u.test(here)) return [];
      const [name = '', terminal] = here.split('.');
      const fit = kindsFitting(name, terminal === undefined ? [] : [terminal], kinds, 3);
      return fit.flatMap((kind) => step(`add ${name} as a ${kind}`, { do: 'part', id: name, held: requiredHeld(kind, kinds) }));
    }
    case 'duplicate-id':
    case 'id-taken':
    case 'reserved-name':
    case 'id-form': {
      const letter = /^\p{L}+/u.exec(here)?.[0] ?? 'A';
      const made = code === 'id-form' ? idOf(here.replaceAll('.', '_')) : undefined;
      const free = made !== undefined && !taken.has(made) ? made : nextId(letter, taken);
      return [{ label: `call it ${free}`, edits: [{ from, to, insert: yamlText(free) }] }];
    }
    case 'unknown-key': {
      const out = entryAt(places, from);
      return out ? [{ label: `take \`${here}\` out`, edits: out }] : [];
    }
    case 'missing-key': {
      const key = /`([^`]+)` is missing/.exec(what)?.[1] ?? '';
      if (key === 'title') return step('give it a title', { do: 'head', key: 'title', held: 'My circuit' });
      if (id === undefined || what !== `${id}: \`${key}\` is missing`) return [];
      if (key === 'kind')
        return kindsFitting(id, [], kinds, 3).flatMap((kind) => step(`${id} is a ${kind}`, { do: 'set', id, key: 'kind', held: kind }));
      const kind = kindIn(places, id);
      const held = requiredHeld(kind ?? '', kinds)[key];
      return held === undefined ? [] : step(`write ${key}: ${typeof held === 'string' ? held : '…'}`, { do: 'set', id, key, held });
    }
    case 'load-without-limits':
      return id === undefined ? [] : step('leave out `load: yes`', { do: 'set', id, key: 'load', held: undefined });
    case 'loose-part':
      return id === undefined ? [] : step(`take ${id} out`, { do: 'remove', ids: [id] });
    case 'no-supply':
      return step('add a battery', { do: 'part', id: nextId('G', taken), held: { kind: 'battery' } });
    case 'source-loop':
      return id === undefined ? [] : step(`give ${id} 0.01 Ω`, { do: 'set', id, key: 'resistance', held: '0.01 Ω' });
    case 'wire-to-itself':
    case 'duplicate-wire': {
      const wire = wirePlaces(places).find((w) => startOf(w.node) <= from && (w.node.range?.[1] ?? 0) >= to);
      return wire ? step('take the wire out', { do: 'remove', ids: [wire.id] }) : [];
    }
    default:
      return [];
  }
}

/** Tabs at the beginning of lines, each two spaces. */
function untabbed(text: string): Mend {
  const edits = [...text.matchAll(/^[ \t]*\t[ \t]*/gm)].map((m) => ({
    from: m.index,
    to: m.index + m[0].length,
    insert: m[0].replaceAll('\t', '  '),
  }));
  return { label: 'indent with spaces', edits };
}

export function offsetOf(text: string, line: number, column: number): number {
  let at = 0;
  for (let k = 1; k < line; k++) {
    const end = text.indexOf('\n', at);
    if (end < 0) return text.length;
    at = end + 1;
  }
  return Math.min(text.length, at + column - 1);
}

/** The part in whose entry an offset lies. */
export function partAt(places: Places, offset: number): string | undefined {
  const entries = entriesOf(places.parts);
  const at = entries.findIndex((e) => startOf(e.key) > offset);
  const entry = entries[at < 0 ? entries.length - 1 : at - 1];
  const end = entry?.value?.range?.[1] ?? entry?.key.range?.[1] ?? 0;
  return entry && offset <= end ? keyText(entry) : undefined;
}

function kindIn(places: Places, id: string): string | undefined {
  const part = entriesOf(places.parts).find((e) => keyText(e) === id)?.value;
  const kind = isMap(part) ? entriesOf(part as YAMLMap).find((e) => keyText(e) === 'kind')?.value : undefined;
  return kind && 'value' in kind ? String(kind.value) : undefined;
}

/** Edits that take out the entry whose key begins at an offset, wherever it stands. */
function entryAt(places: Places, offset: number): readonly TextEdit[] | undefined {
  const within = (map: YAMLMap): readonly TextEdit[] | undefined => {
    for (const [k, entry] of entriesOf(map).entries()) {
      if (startOf(entry.key) === offset) return removed(places.text, map, [k]);
      const value = entry.value;
      const items: readonly unknown[] = isMap(value) ? [value] : value && 'items' in value ? value.items : [];
      for (const item of items) {
        const found = isMap(item) ? within(item as YAMLMap) : undefined;
        if (found) return found;
      }
    }
    return undefined;
  };
  return within(places.root);
}
