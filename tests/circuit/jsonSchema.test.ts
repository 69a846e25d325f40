import { expect, test } from 'vitest';
import { circuitJsonSchema } from '../../src/circuit/jsonSchema.ts';
import { partKinds } from '../../src/parts/index.ts';

test('circuits/circuit.schema.json is up to date (renew: npm run unit -- -u)', async () => {
  await expect(`${JSON.stringify(circuitJsonSchema(partKinds), null, 2)}\n`).toMatchFileSnapshot('../../circuits/circuit.schema.json');
});

test('every kind has its branch, and a wire is described where wires stand', () => {
  const schema = circuitJsonSchema(partKinds) as {
    $defs: Record<string, { properties: object; additionalProperties: boolean }>;
    properties: Record<string, { items?: { required: string[] } }>;
  };
  expect(Object.keys(schema.$defs).sort()).toEqual(partKinds.map((k) => k.kind).sort());
  for (const kind of partKinds) {
    expect(Object.keys(schema.$defs[kind.kind]!.properties)).toEqual(
      expect.arrayContaining(['kind', 'name', ...Object.keys(kind.parameters)]),
    );
    expect(schema.$defs[kind.kind]!.additionalProperties).toBe(false);
  }
  expect(schema.properties['wires']?.items?.required).toEqual(['from', 'to']);
});
