import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '..', '..');
const ids = (text: string) =>
  [...new Set([...text.matchAll(/\[(P\d+)\]/g)].map((m) => m[1]!))].sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)));

test('every promise of the README has a test with its id, and every id in a test a promise', () => {
  const promised = ids(readFileSync(join(root, 'README.md'), 'utf8'));
  const tests = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' }).filter(
    (f) => f.endsWith('.test.ts') && !f.endsWith('promises.test.ts'),
  );
  const titles = tests.flatMap((f) =>
    [...readFileSync(join(root, 'tests', f), 'utf8').matchAll(/(?:test|it|describe)(?:\.each\([\s\S]*?\))?\(\s*(['"`])([\s\S]*?)\1/g)].map(
      (m) => m[2]!,
    ),
  );
  expect(promised.length).toBeGreaterThan(0);
  expect(ids(titles.join('\n'))).toEqual(promised);
});
