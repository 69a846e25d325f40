import type { Circuit } from '../../circuit/circuit.ts';
import type { Part } from '../../circuit/part.ts';
import { quantityText } from '../../circuit/quantity.ts';
import { type WholeWire, wholeWires } from './wholeWires.ts';

/** One thing that two circuits have otherwise. `there` and `here` are absent where one of them does not have it at all. */
export type Difference = {
  /** Part or wire; '' for the circuit itself. */
  readonly part: string;
  /** What of it: a parameter, `ends`, `kind`, `part`. */
  readonly what: string;
  readonly there?: string;
  readonly here?: string;
  /** A sentence without a full stop: `wire W7 is 0.75 mm² there, 1.5 mm² here`. */
  readonly text: string;
};

/**
 * Two circuits compared, part by part and wire by wire, in words. Parts are matched by id; a wire without an id has
 * one from its ends. Comments, order and how the files are written do not count. Nothing differs: an empty list.
 *
 * @param there the circuit that one compares with
 * @param here  the circuit in hand
 */
export function differences(there: Circuit, here: Circuit): readonly Difference[] {
  const found: Difference[] = [];
  const head = (what: string, a: string, b: string) => {
    if (a !== b) found.push({ part: '', what, there: a, here: b, text: `the ${what} is ${shown(a)} there, ${shown(b)} here` });
  };
  head('title', there.title, here.title);
  head('ambient temperature', quantityText(there.ambient, 'temperature'), quantityText(here.ambient, 'temperature'));
  head('text about it', there.about ?? '', here.about ?? '');
  head('list of cautions', there.cautions.join('; '), here.cautions.join('; '));
  const [partsThere, partsHere] = [partsOf(there), partsOf(here)];
  for (const [id, part] of partsThere) if (!partsHere.has(id)) found.push(only(part, 'there'));
  for (const [id, part] of partsHere) {
    const other = partsThere.get(id);
    found.push(...(other ? ofPart(other, part) : [only(part, 'here')]));
  }
  const [wiresThere, wiresHere] = [wholeWires(there), wholeWires(here)];
  for (const [id, wire] of wiresThere) if (!wiresHere.has(id)) found.push(onlyWire(wire, 'there'));
  for (const [id, wire] of wiresHere) {
    const other = wiresThere.get(id);
    found.push(...(other ? ofWire(other, wire) : [onlyWire(wire, 'here')]));
  }
  for (const role of ['crank', 'spark', 'fuel', 'stops', 'drives'] as const) {
    const [a, b] = [there, here].map((c) => [c.engine?.[role] ?? []].flat().join(', ')) as [string, string];
    if (a !== b)
      found.push({
        part: '',
        what: role,
        there: a,
        here: b,
        text: `${role} of the engine is ${a || 'nothing'} there, ${b || 'nothing'} here`,
      });
  }
  return found;
}

const partsOf = (circuit: Circuit): ReadonlyMap<string, Part> =>
  new Map([...circuit.parts].filter(([, part]) => part.kind.isWire !== true));

const shown = (text: string): string => (text === '' ? 'empty' : `“${text}”`);

function only(part: Part, where: 'there' | 'here'): Difference {
  const what = `${part.kind.title} ${part.id}`;
  return {
    part: part.id,
    what: 'part',
    [where]: part.kind.kind,
    text: `${what}${part.name === undefined ? '' : ` (${part.name})`} is only ${where}`,
  };
}

function onlyWire(wire: WholeWire, where: 'there' | 'here'): Difference {
  return { part: wire.id, what: 'part', [where]: way(wire), text: `wire ${wire.id}, ${way(wire)}, is only ${where}` };
}

const way = ({ from, to, via }: WholeWire): string => `from ${from} to ${to}${via.length === 0 ? '' : ` through ${via.join(', ')}`}`;

function ofPart(there: Part, here: Part): readonly Difference[] {
  const { id } = here;
  if (there.kind.kind !== here.kind.kind)
    return [
      {
        part: id,
        what: 'kind',
        there: there.kind.kind,
        here: here.kind.kind,
        text: `${id} is a ${there.kind.title} there, a ${here.kind.title} here`,
      },
    ];
  const subject = `${here.kind.title} ${id}`;
  return [...ofCommon(there, here, subject), ...ofParameters(there, here, subject)];
}

function ofCommon(there: Part, here: Part, subject: string): readonly Difference[] {
  const rows: readonly (readonly [what: string, there: string, here: string])[] = [
    ['name', there.name ?? '', here.name ?? ''],
    ['place', there.place ?? '', here.place ?? ''],
    ['note', there.note ?? '', here.note ?? ''],
    ['row in the table', there.isLoad ? 'yes' : 'no', here.isLoad ? 'yes' : 'no'],
    ['what must be switched on', (there.needs ?? []).join(', '), (here.needs ?? []).join(', ')],
    ['minutes to reach it', String(there.minutes ?? ''), String(here.minutes ?? '')],
  ];
  return rows.flatMap(([what, a, b]) =>
    a === b ? [] : [{ part: here.id, what, there: a, here: b, text: `${subject}: ${what} ${shown(a)} there, ${shown(b)} here` }],
  );
}

/** A wire's own words for its parameters; other parts say the parameter's name. */
const wireWords: Readonly<Record<string, (text: string) => string>> = {
  area: (text) => text,
  length: (text) => `${text} long`,
  colour: (text) => text,
};

function ofWire(there: WholeWire, here: WholeWire): readonly Difference[] {
  const { id } = here;
  const found: Difference[] = [];
  if (way(there) !== way(here))
    found.push({
      part: id,
      what: 'ends',
      there: way(there),
      here: way(here),
      text: `wire ${id} goes ${way(there)} there, ${way(here)} here`,
    });
  return [...found, ...ofCommon(there.part, here.part, `wire ${id}`), ...ofParameters(there.part, here.part, `wire ${id}`)];
}

function ofParameters(there: Part, here: Part, subject: string): readonly Difference[] {
  return Object.entries(here.kind.parameters).flatMap(([name, parameter]): readonly Difference[] => {
    const say = (held: unknown): string =>
      held === undefined
        ? 'not given'
        : parameter.as === 'quantity' && typeof held === 'number'
          ? quantityText(held, parameter.dimension, 6)
          : plainText(held);
    const assumed = (part: Part, text: string) => (part.given.has(name) || part.params[name] === undefined ? text : `${text} (not given)`);
    return unlike(there.params[name], here.params[name], []).map(({ path, a, b }) => {
      const what = [name, ...path].join(' ');
      const [x, y] = path.length > 0 ? [say(a), say(b)] : [assumed(there, say(a)), assumed(here, say(b))];
      const word = here.kind.isWire === true && a !== undefined && b !== undefined ? wireWords[name] : undefined;
      const text = word ? `${subject} is ${word(x)} there, ${word(y)} here` : `${subject}: ${what} ${x} there, ${y} here`;
      return { part: here.id, what, there: x, here: y, text };
    });
  });
}

type Unlike = { readonly path: readonly string[]; readonly a: unknown; readonly b: unknown };

/** Where two held values differ, as deep as both are maps; lists differ as wholes. */
function unlike(a: unknown, b: unknown, path: readonly string[]): readonly Unlike[] {
  if (Object.is(a, b)) return [];
  if (isMap(a) && isMap(b))
    return [...new Set([...Object.keys(a), ...Object.keys(b)])].flatMap((key) => unlike(a[key], b[key], [...path, key]));
  return plainText(a) === plainText(b) ? [] : [{ path, a, b }];
}

function isMap(held: unknown): held is Readonly<Record<string, unknown>> {
  return typeof held === 'object' && held !== null && !Array.isArray(held);
}

/** Any held value in short: `[42, 95]`, `{ at: 60 }`. */
function plainText(held: unknown): string {
  if (held === undefined) return 'not there';
  if (Array.isArray(held)) return `[${held.map(plainText).join(', ')}]`;
  if (isMap(held))
    return `{ ${Object.entries(held)
      .map(([key, inner]) => `${key}: ${plainText(inner)}`)
      .join(', ')} }`;
  return typeof held === 'boolean' ? (held ? 'yes' : 'no') : String(held);
}
