import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { problemText } from '../../src/report/problemText.ts';

/**
 * Faulty circuit files with the messages that a person read and found right beside each. A change of wording renews
 * them by `npm run unit -- -u`; read the difference before it is kept.
 */
const folder = 'tests/circuit/faulty';
const files = readdirSync(folder).filter((f) => f.endsWith('.yaml'));

test('there are at least 100 of them', () => {
  expect(files.length).toBeGreaterThanOrEqual(100);
});

test.each(files)('%s', async (file) => {
  const text = readFileSync(`${folder}/${file}`, 'utf8');
  const read = readCircuit(text, file, partKinds);
  expect(read.problems.length).toBeGreaterThan(0);
  expect(read.ok).toBe(read.problems.every((p) => p.severity === 'warning'));
  const said = read.problems.map((p) => problemText(p, text)).join('\n\n');
  await expect(`${said}\n`).toMatchFileSnapshot(`faulty/${file.replace('.yaml', '.txt')}`);
});

test('[P3] every message says what, why and how to mend it, without blame', () => {
  for (const file of files) {
    for (const p of readCircuit(readFileSync(`${folder}/${file}`, 'utf8'), file, partKinds).problems) {
      expect(p.code, file).toMatch(/^[a-z]+(-[a-z0-9]+)*$/);
      expect(p.mend.length, `${file} ${p.code}`).toBeGreaterThan(0);
      for (const line of [p.what, p.why, ...p.mend]) {
        expect(line, file).not.toMatch(/invalid|illegal|wrong input|you |your |\?$|\.$/i);
        expect(line.length, file).toBeGreaterThan(3);
      }
    }
  }
});

test('every code told here heads a paragraph of DEVELOPERS.md', () => {
  const heads = [...readFileSync('DEVELOPERS.md', 'utf8').matchAll(/^\*\*([^*]+?)\.?\*\*/gm)].flatMap((m) => m[1]!.split(/,\s+/));
  const told = files.flatMap((file) => readCircuit(readFileSync(`${folder}/${file}`, 'utf8'), file, partKinds).problems.map((p) => p.code));
  expect([...new Set(told)].filter((code) => !heads.includes(code))).toEqual([]);
});
