import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { circuitJsonSchema } from '../../src/circuit/jsonSchema.ts';
import { partKinds } from '../../src/parts/index.ts';
import { benchText } from './benchText.ts';
import { misfits } from './jsonSchemaFits.ts';

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

const schema = circuitJsonSchema(partKinds);
// As an editor sees the file: YAML 1.2 core, numbers as numbers.
const seen = (text: string): unknown => parse(text);

test('every circuit of the library fits', () => {
  const texts = readdirSync('circuits').flatMap((f) => (f.endsWith('.yaml') ? [readFileSync(`circuits/${f}`, 'utf8')] : []));
  for (const text of [benchText, ...texts]) expect(misfits(schema, seen(text))).toEqual([]);
});

test('an editor marks what the reader refuses by shape', () => {
  const wrong: readonly (readonly [string, string, string])[] = [
    ['title: Bench board, 12 V\n', '', ': title is missing'],
    ['kind: switch', 'kind: swich', '/parts/S2/kind: none of'],
    ['power: 5 W', 'powr: 5 W', '/parts/H1: power is missing'],
    ['power: 5 W', 'power: 5 W, brand: x', '/parts/H1: brand is no key'],
    ['load: yes', 'load: maybe', '/parts/H1/load: none of yes,no,true,false'],
    ['colour: RD', 'color: RD', '/wires/0: color is no key'],
    ['to: R1.1', 'two: R1.1', '/wires/1: to is missing'],
    ['crank: R2', 'krank: R2', '/engine: crank is missing'],
  ];
  for (const [from, to, expected] of wrong) expect(misfits(schema, seen(benchText.replace(from, to))).join('\n')).toContain(expected);
});
