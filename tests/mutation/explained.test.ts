import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { explained, knownAs, rowOf } from './explained.mjs';

const { whys, changes } = explained();

test('every explained change stands in a line of today, says why by a reason that is written out, and alters something', () => {
  const isIn = (file: string, line: string) =>
    readFileSync(file, 'utf8')
      .split('\n')
      .some((l) => l.trim() === line);
  expect(changes.filter((c) => !isIn(c.file, c.line))).toEqual([]);
  expect(changes.filter((c) => !(c.why in whys) || c.before === c.after)).toEqual([]);
  // What goes over several lines is told by its first.
  expect(changes.filter((c) => !c.before.endsWith(' …') && !c.line.includes(c.before))).toEqual([]);
  const used = new Set(changes.map((c) => c.why));
  expect(Object.keys(whys).filter((why) => !used.has(why))).toEqual([]);
  expect(new Set(changes.map(({ why: _, ...row }) => JSON.stringify(row))).size).toBe(changes.length);
});

test('a change is known by its file, its line and both texts, wherever the line stands', () => {
  const lines = ['const a = 1;', '  if (a < b) return;'];
  const row = rowOf('src/solve/loads.ts', lines, { at: '2:7', before: 'a < b', after: 'a <= b' });
  expect(row).toEqual({ file: 'src/solve/loads.ts', line: 'if (a < b) return;', before: 'a < b', after: 'a <= b' });
  const isKnown = knownAs([row]);
  expect(isKnown({ ...row })).toBe(true);
  expect([{ file: 'x' }, { line: 'x' }, { before: 'x' }, { after: 'x' }].map((other) => isKnown({ ...row, ...other }))).toEqual([
    false,
    false,
    false,
    false,
  ]);
});
