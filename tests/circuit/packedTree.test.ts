import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { packedTree, unpackedTree } from '../../src/circuit/packedTree.ts';
import { yamlTree } from '../../src/circuit/yamlTree.ts';

for (const name of readdirSync('circuits').filter((n) => n.endsWith('.yaml')))
  test(`${name} packed and unpacked is what the parser reads`, () => {
    const text = readFileSync(`circuits/${name}`, 'utf8');
    const { root, problems } = yamlTree(text, name);
    expect(problems).toEqual([]);
    expect(unpackedTree(packedTree(root!, text), text)).toEqual(root);
  });

test('what is not read as it is written keeps its words', () => {
  const text = "title: 'it''s'\n'a b': [ \"x\\ty\", plain, '' ]\nempty:\n";
  const { root } = yamlTree(text, 't.yaml');
  const packed = packedTree(root!, text);
  expect(packed.words).toEqual(["it's", 'a b', 'x\ty', '']);
  expect(unpackedTree(packed, text)).toEqual(root);
});
