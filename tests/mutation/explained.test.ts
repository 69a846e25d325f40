import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { explained, knownAs, rowOf } from './explained.mjs';

const { whys, changes } = explained();

test('every explained change stands in one place of today, says why by a reason that is written out, and alters something', () => {
  const places = (file: string, above: string, line: string) => {
    const lines = readFileSync(file, 'utf8')
      .split('\n')
      .map((l) => l.trim());
    return lines.filter((l, k) => l === line && (lines[k - 1] ?? '') === above).length;
  };
  expect(changes.filter((c) => places(c.file, c.above, c.line) !== 1)).toEqual([]);
  expect(changes.filter((c) => !(c.why in whys) || c.before === c.after)).toEqual([]);
  // What goes over several lines is told by its first.
  expect(changes.filter((c) => !c.line.startsWith(c.before.replace(/ …$/, ''), c.column - 1))).toEqual([]);
  const used = new Set(changes.map((c) => c.why));
  expect(Object.keys(whys).filter((why) => !used.has(why))).toEqual([]);
  expect(new Set(changes.map(({ why: _, ...row }) => JSON.stringify(row))).size).toBe(changes.length);
});

test('a change is known by its file, its place and both texts, wherever the line stands', () => {
  const lines = ['const a = 1;', '  if (a < b) return;'];
  const row = rowOf('src/solve/loads.ts', lines, { at: '2:7', before: 'a < b', after: 'a <= b' });
  expect(row).toEqual({
    file: 'src/solve/loads.ts',
    above: 'const a = 1;',
    line: 'if (a < b) return;',
    column: 5,
    before: 'a < b',
    after: 'a <= b',
  });
  expect(rowOf('x', lines, { at: '1:1', before: 'const', after: '' })).toMatchObject({ above: '', line: 'const a = 1;', column: 1 });
  const isKnown = knownAs([row]);
  expect(isKnown({ ...row })).toBe(true);
  const others = [{ file: 'x' }, { above: 'x' }, { line: 'x' }, { column: 4 }, { before: 'x' }, { after: 'x' }];
  expect(others.map((other) => isKnown({ ...row, ...other }))).toEqual(others.map(() => false));
});
