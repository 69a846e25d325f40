import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { fakeIo } from './fakeIo.ts';

const folder = mkdtempSync(join(tmpdir(), 'detent-fit-'));
afterAll(() => rmSync(folder, { recursive: true }));
async function ran(...words: string[]) {
  const said = fakeIo();
  const exit = await runLine(words, said.io);
  return { exit, out: said.out(), err: said.err() };
}

test('the fitted circuit is written with its comments, and compared it differs in figures only', async () => {
  const mine = join(folder, 'mine.yaml');
  const { exit, out } = await ran('fit', 'circuits/light-van.yaml', '--read', 'key out: 12.5 V at G1.+', '-o', mine);
  expect(exit).toBe(0);
  expect(out).toContain('All readings agree.');
  expect(out).toMatch(/G1 charge\s+100 %/);
  const comments = (text: string) => text.match(/#.*$/gm);
  expect(comments(readFileSync(mine, 'utf8'))).toEqual(comments(readFileSync('circuits/light-van.yaml', 'utf8')));
  expect((await ran('compare', 'circuits/light-van.yaml', mine)).out).toContain('battery G1: charge 100 % (not given) there');
}, 60_000);

test('what is no reading is told', async () => {
  expect((await ran('fit', 'circuits/light-van.yaml', '--read', 'ON: T1 works')).err).toContain('not-a-value');
  expect((await ran('fit', 'circuits/light-van.yaml')).err).toContain('no-readings');
  expect((await ran('fit', 'circuits/light-van.yaml', '--read', 'ON: 12 V at G9.+')).exit).toBe(1);
});
