import { describe, expect, test } from 'vitest';
import { yamlFlow, yamlText } from '../../../src/circuit/edit/written.ts';
import { entryLines } from '../../../src/circuit/edit/writtenPart.ts';

describe('what is written into a file', () => {
  test('texts, lists and maps, nothing left of what has no value', () => {
    expect(yamlFlow({})).toBe('{}');
    expect(yamlFlow({ a: undefined })).toBe('{}');
    expect(yamlFlow({ a: '8 A', b: undefined, c: ['x', 'y: z'] })).toBe('{ a: 8 A, c: [x, "y: z"] }');
    expect(yamlText('a\u2028b\u2029')).toBe('"a\\u2028b\\u2029"');
    expect([yamlText(' a'), yamlText('---'), yamlText('...'), yamlText('')]).toEqual(['" a"', '"---"', '"..."', '""']);
  });
  test('a long entry becomes a block, with the same indentation inside; a short one, a text or a list stays on its line', () => {
    const long = 'a word '.repeat(20).trim();
    expect(entryLines('F3', { kind: 'fuse', rating: '8 A' }, '  ')).toBe('  F3: { kind: fuse, rating: 8 A }');
    expect(entryLines('F3', { kind: 'fuse', note: long, place: undefined }, '  ')).toBe(`  F3:\n    kind: fuse\n    note: ${long}`);
    expect(entryLines('note', long, '  ')).toBe(`  note: ${long}`);
    expect(entryLines('with', [long], '  ')).toBe(`  with: [${long}]`);
    const exact = 'x'.repeat(130 - '  F3: { a:  }'.length);
    expect(entryLines('F3', { a: exact }, '  ')).toHaveLength(130);
    expect(entryLines('F3', { a: `${exact}x` }, '  ')).toContain('\n');
  });
});
