import { type ConversionConfig, toJsonSchema } from '@valibot/to-json-schema';
import * as v from 'valibot';
import type { PartKind } from './part.ts';
import { fileShape, shapesOf } from './shape.ts';
import { type Json, jsonOf } from './written.ts';

const config: ConversionConfig = {
  typeMode: 'input',
  // Checks with code of their own (a form's inner rules) have no JSON Schema; the reader still makes them.
  errorMode: 'ignore',
  overrideSchema: ({ valibotSchema, jsonSchema }) => {
    const own = jsonOf.get(valibotSchema);
    if (own) return { ...jsonSchema, ...own };
    // Any other scalar of a form: the reader takes it as text, so a bare number is as good.
    return valibotSchema.type === 'string' ? { ...jsonSchema, type: ['string', 'number'] } : undefined;
  },
};

/**
 * JSON Schema of a circuit file, for editors: made of the same schemas that `readCircuit` reads with. Which keys a part
 * takes follows from its `kind`, told by if/then rather than by a choice, so that an editor points at the wrong key.
 * Not in it: what only the reader can see (units of a quantity, ids, wires, forms of more than one key).
 */
export function circuitJsonSchema(kinds: readonly PartKind[]): Json {
  const wireKind = kinds.find((k) => k.isWire === true);
  const file = plain(fileShape(v.unknown(), v.unknown())) as { properties: Record<string, Json> };
  const sorted = [...kinds].sort((a, b) => (a.kind < b.kind ? -1 : 1));
  const part = {
    type: 'object',
    required: ['kind'],
    properties: { kind: { enum: sorted.map((k) => k.kind) } },
    // biome-ignore lint/suspicious/noThenProperty: `then` is a word of JSON Schema; nothing awaits this
    allOf: sorted.map((k) => ({ if: { properties: { kind: { const: k.kind } } }, then: { $ref: `#/$defs/${k.kind}` } })),
  };
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: 'Circuit of a vehicle',
    ...file,
    properties: {
      ...file.properties,
      parts: { ...file.properties['parts'], additionalProperties: part },
      ...(wireKind ? { wires: { type: 'array', items: described(wireKind, plain(shapesOf(wireKind).wire)) } } : {}),
    },
    $defs: Object.fromEntries(sorted.map((k) => [k.kind, described(k, plain(shapesOf(k).part))])),
  };
}

function plain(schema: v.GenericSchema): Json {
  const { $schema: _, ...rest } = toJsonSchema(schema, config) as Json;
  return rest;
}

/** Adds what each parameter means, which an editor shows beside it. */
function described(kind: PartKind, schema: Json): Json {
  const properties = schema['properties'] as Readonly<Record<string, Json>>;
  const entries = Object.entries(properties).map(([name, json]) => {
    const parameter = Object.hasOwn(kind.parameters, name) ? kind.parameters[name] : undefined;
    return [name, parameter ? { description: parameter.about, ...json } : json] as const;
  });
  return { description: `${kind.title}: ${kind.about}`, ...schema, properties: Object.fromEntries(entries) };
}
