import * as v from 'valibot';
import { issueText } from './issueText.ts';
import { nearNames } from './nearNames.ts';
import type { Parameter } from './parameter.ts';
import type { PartKind } from './part.ts';
import { jsonOf, writtenCount, writtenFlag, writtenName, writtenNames, writtenQuantity, writtenWord } from './written.ts';

export type WrittenMap<E extends v.ObjectEntries> = v.GenericSchema<
  v.InferInput<v.ObjectSchema<E, undefined>>,
  v.InferOutput<v.ObjectSchema<E, undefined>>
> & { readonly entries: E };

/** A map with known keys; every unknown one is told, with near names. (A strict object tells only the first.) */
export function writtenMap<const E extends v.ObjectEntries>(entries: E): WrittenMap<E> {
  const keys = Object.keys(entries);
  const open = v.looseObject(entries, (issue) => missing(issue, keys));
  jsonOf.set(open, { additionalProperties: false });
  const schema = v.pipe(
    open,
    v.rawCheck(({ dataset, addIssue }) => {
      const found: unknown = dataset.value;
      if (typeof found !== 'object' || found === null || Array.isArray(found)) return;
      for (const [key, value] of Object.entries(found)) {
        if (Object.hasOwn(entries, key)) continue;
        const near = nearNames(key, keys);
        const mend =
          near.length > 0
            ? [`keys with a near name: ${near.map((n) => `\`${n}\``).join(', ')}`]
            : [`keys here: ${keys.map((n) => `\`${n}\``).join(', ')}`];
        addIssue({
          message: issueText('unknown-key', `\`${key}\` is no key here`, mend),
          path: [{ type: 'object', origin: 'key', input: found as Record<string, unknown>, key, value }],
        });
      }
    }),
  );
  return Object.assign(schema, { entries }) as unknown as WrittenMap<E>;
}

function missing(issue: v.LooseObjectIssue, keys: readonly string[]): string {
  const key = issue.expected.startsWith('"') ? issue.expected.slice(1, -1) : undefined;
  if (key !== undefined) return issueText('missing-key', `\`${key}\` is missing`, []);
  return issueText('wrong-shape', `a map is wanted here, written \`{ key: … }\``, [`keys: ${keys.map((k) => `\`${k}\``).join(', ')}`]);
}

/** Keys that every part may have besides the parameters of its kind. */
const common = {
  name: v.optional(writtenName()),
  place: v.optional(writtenName()),
  note: v.optional(writtenName()),
  load: v.optional(writtenFlag()),
  with: v.optional(writtenNames()),
  minutes: v.optional(writtenCount({ min: 0, max: 10_000 })),
};
export const commonKeys: readonly string[] = Object.keys(common);
export type CommonWritten = { readonly [K in keyof typeof common]: v.InferOutput<(typeof common)[K]> };

/** How one parameter is written. */
function parameterSchema(parameter: Parameter): v.GenericSchema {
  switch (parameter.as) {
    case 'quantity':
      return writtenQuantity(parameter.dimension, { min: parameter.min, max: parameter.max }, parameter.unknown ?? parameter.default);
    case 'count':
      return writtenCount({ min: parameter.min, max: parameter.max });
    case 'word':
      return writtenWord(parameter.words);
    case 'flag':
      return writtenFlag();
    case 'text':
      return writtenName();
    case 'form':
      return parameter.schema;
  }
}

function entriesOf(kind: PartKind): v.ObjectEntries {
  const entries: v.ObjectEntries = {};
  for (const [name, parameter] of Object.entries(kind.parameters)) {
    const schema = parameterSchema(parameter);
    entries[name] = 'required' in parameter && parameter.required ? schema : v.optional(schema);
  }
  return entries;
}

const shapes = new WeakMap<PartKind, { part: v.GenericSchema; wire: v.GenericSchema }>();

/** Schemas of a part of this kind and of a wire whose parameters are this kind's. */
export function shapesOf(kind: PartKind): { readonly part: v.GenericSchema; readonly wire: v.GenericSchema } {
  const made = shapes.get(kind);
  if (made) return made;
  const own = entriesOf(kind);
  const fresh = {
    part: writtenMap({ kind: v.literal(kind.kind), ...common, ...own }),
    wire: writtenMap({
      id: v.optional(writtenName()),
      from: writtenName(),
      to: writtenName(),
      via: v.optional(writtenNames()),
      ...common,
      ...own,
    }),
  };
  shapes.set(kind, fresh);
  return fresh;
}

export const engineShape = writtenMap({
  crank: writtenName(),
  spark: v.optional(writtenNames()),
  fuel: v.optional(writtenNames()),
  stops: v.optional(writtenNames()),
  drives: v.optional(writtenNames()),
});
export type EngineWritten = v.InferOutput<typeof engineShape>;

/** A circuit file; `part` and `wire` are looked into apart, by their kinds. */
export function fileShape(part: v.GenericSchema, wire: v.GenericSchema) {
  return writtenMap({
    title: writtenName(),
    about: v.optional(writtenName()),
    ambient: v.optional(writtenQuantity('temperature', { min: -60, max: 150 })),
    cautions: v.optional(writtenNames()),
    parts: v.record(
      v.string(),
      part,
      issueText('wrong-shape', 'parts are written as a map: each id, a colon, and the part', ['write `F1: { kind: fuse, rating: 10 A }`']),
    ),
    wires: v.optional(
      v.array(
        wire,
        issueText('wrong-shape', 'wires are written as a list: each begins with a dash', ['write `- { from: F1.2, to: H1.1 }`']),
      ),
    ),
    engine: v.optional(engineShape),
  });
}
