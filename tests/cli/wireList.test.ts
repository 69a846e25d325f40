import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { fakeIo } from './fakeIo.ts';

const folder = mkdtempSync(join(tmpdir(), 'detent-list-'));
afterAll(() => rmSync(folder, { recursive: true }));
const files = { 'list.csv': 'von;nach;querschnitt\nS1.15;F3.1;1,5\nS1.15;;1\n' };
async function ran(...words: string[]) {
  const said = fakeIo(files);
  const exit = await runLine(words, said.io);
  return { exit, out: said.out(), err: said.err() };
}

test('export, import, compare: nothing differs', async () => {
  const [list, back] = [join(folder, 'van.csv'), join(folder, 'back.yaml')];
  expect((await ran('export', 'circuits/light-van.yaml', '--csv', '--separator', 'semicolon', '--decimal-comma', '-o', list)).exit).toBe(0);
  expect(readFileSync(list, 'utf8').startsWith('\uFEFFwire;from;to')).toBe(true);
  const { exit, out, err } = await ran('import', list, '-o', back);
  expect([exit, out]).toEqual([0, '']);
  expect(err).toMatch(/^\d+ wires taken, 0 rows not; UTF-8, cells parted by semicolon, decimal comma$/);
  expect(await ran('compare', 'circuits/light-van.yaml', back)).toMatchObject({ exit: 0, out: expect.stringContaining('nothing differs') });
});

test('rows that could not be taken: exit 1, the circuit all the same', async () => {
  const { exit, out, err } = await ran('import', 'list.csv', '--title', 'Test');
  expect(exit).toBe(1);
  expect(out).toContain('title: Test');
  expect(out).toContain('- { from: S1.15, to: F3.1, area: 1.5 mm² }');
  expect(err).toContain('list.csv:3:1  row-not-taken');
  expect(err).toContain('1 wires taken, 1 rows not');
});

test('as data', async () => {
  const { exit, out } = await ran('import', 'list.csv', '--json');
  const read = JSON.parse(out) as { separator: string; decimal: string; problems: { line: number }[]; circuit: string };
  expect([exit, read.separator, read.decimal]).toEqual([1, ';', ',']);
  expect(read.circuit).toContain('F3.1');
});

test.each([
  ['a column that does not exist', ['import', 'list.csv', '--column', 'wheel=3'], 'unknown-field'],
  ['a separator that is none', ['export', 'circuits/boat.yaml', '--csv', '--separator', 'dash'], 'unknown-word'],
  ['no such list', ['import', 'nowhere.csv'], 'file-missing'],
  ['a circuit that is none', ['compare', 'list.csv', 'circuits/boat.yaml'], 'list.csv:'],
])('%s', async (_, words, told) => {
  const { exit, err } = await ran(...words);
  expect(exit).toBe(1);
  expect(err).toContain(told);
});
