import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { fakeIo } from './fakeIo.ts';

const folder = mkdtempSync(join(tmpdir(), 'practise-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const typed = (lines: readonly string[]) => ({
  lines: async function* () {
    yield* lines;
  },
});
const board = 'circuits/bench-board.yaml';

test('an instructor hides a fault, the file does not name it, the apprentice finds it with the pass-word, class sheet and progress are kept', {
  timeout: 120_000,
}, async () => {
  const file = join(folder, 'monday.yaml');
  const made = fakeIo();
  expect(await runLine(['practise', board, '--hide', 'S1.30-15 open at ON', '--pass', 'brass', '-o', file], made.io)).toBe(0);
  const text = readFileSync(file, 'utf8');
  expect(text).not.toContain('open at ON');
  expect(text).toContain('sealed:');
  const shut = fakeIo();
  expect(await runLine(['practise', file, '--pass', 'copper'], shut.io)).toBe(1);
  expect(shut.err()).toContain('pass-word');
  const [csv, progress, sheet] = ['class.csv', 'progress.json', 'sheet.md'].map((n) => join(folder, n)) as [string, string, string];
  const played = fakeIo(
    {},
    typed(['START', 'release', 'ON', 'look', 'volts S1.15', 'volts S1.30 S1.15', 'repair S1', 'walk', 'name S1.30-15 open at ON']),
  );
  expect(
    await runLine(
      ['practise', file, '--pass', 'brass', '--class', csv, '--name', 'Kim', '--progress', progress, '--sheet', sheet],
      played.io,
    ),
  ).toBe(0);
  expect(played.out()).toMatch(/Right, and proved\./);
  expect(readFileSync(csv, 'utf8').split('\n')[1]).toMatch(/^Kim,/);
  expect(JSON.parse(readFileSync(progress, 'utf8')).results).toHaveLength(1);
  expect(readFileSync(sheet, 'utf8')).toContain('| **Together** |');
});

test('on demand, the same level and seed tell the same complaint; --json gives the result and nothing else', {
  timeout: 120_000,
}, async () => {
  const out = async () => {
    const said = fakeIo({}, typed(['look', 'give up']));
    expect(await runLine(['practise', board, '--level', '3', '--seed', '2', '--json'], said.io)).toBe(0);
    return JSON.parse(said.out());
  };
  const [one, two] = [await out(), await out()];
  expect(one).toEqual(two);
  expect(one).toMatchObject({ level: 3, seed: 2, outcome: 'given up' });
});

test('level 1 asks ten cells; a level that does not exist is a problem with its range', async () => {
  const quiz = fakeIo({}, typed(Array.from({ length: 24 }, (_, k) => (k % 2 === 0 ? 'works' : 'still'))));
  expect(await runLine(['practise', board, '--level', '1'], quiz.io)).toBe(0);
  expect(quiz.out()).toMatch(/\d+ of 10: \d+ of 100/);
  const wrong = fakeIo();
  expect(await runLine(['practise', board, '--level', '12'], wrong.io)).toBe(1);
  expect(wrong.err()).toContain('1 to 11');
});

test.each([
  ['make', '0', '0 exercises cannot be made', 'from 1 to 50'],
  ['make', '51', '51 exercises cannot be made', 'from 1 to 50'],
  ['number', '0', 'there is no exercise number 0', 'from 1 to 500'],
  ['level', '12', 'there is no level 12', 'from 1 to 11'],
  ['seed', '3000000000', '3000000000 is no seed', 'from -2000000000 to 2000000000'],
  ['make', 'many', '`many` is no number of exercises', 'a whole number'],
])('--%s %s is refused in words, with the range', async (option, word, said, range) => {
  const { io, err } = fakeIo();
  expect(await runLine(['practise', board, `--${option}`, word], io)).toBe(1);
  expect(err()).toContain(said);
  expect(err()).toContain(range);
});
