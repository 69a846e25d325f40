import { describe, expect, test } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { fakeIo } from './fakeIo.ts';

const van = 'circuits/light-van.yaml';

async function run(words: readonly string[], files: Readonly<Record<string, string>> = {}) {
  const written: Record<string, string> = {};
  const said = fakeIo(files, {
    writeFile: (path, text) => {
      written[path] = text;
      return { ok: true, value: undefined, problems: [] };
    },
  });
  return { exit: await runLine(['play', ...words], said.io), out: said.out(), err: said.err(), written };
}

describe('play', () => {
  test('tells events and strips in 80 columns', async () => {
    const { exit, out } = await run([van, 'LOCK, ON 2 s, START 1.5 s, release 5 s', '--fault', 'S1.30-15 open at ON']);
    expect(exit).toBe(0);
    expect(out).toContain('engine dies');
    expect(Math.max(...out.split('\n').map((l) => [...l].length))).toBeLessThanOrEqual(80);
  });
  test('reads a story from a file', async () => {
    const { exit, out } = await run([van, 'morning.txt'], { 'morning.txt': '# cold\nON 1 s\nSTART 1.5 s\nrelease 2 s\n' });
    expect(exit).toBe(0);
    expect(out).toContain('engine fires and runs');
  });
  test('says in which line of the file a step is not understood', async () => {
    const { exit, err } = await run([van, 'morning.txt'], { 'morning.txt': 'ON 1 s\nSTRAT 1 s\n' });
    expect(exit).toBe(1);
    expect(err).toContain('morning.txt:2:1');
    expect(err).toContain('START');
  });
  test('the same seed plays the same, another one may not', async () => {
    const story = [van, 'ON 1 s, START 1 s, release', '--fault', 'S1.30-50 comes and goes 50 %', '--json'];
    const plays = await Promise.all(['1', '1', '2', '3', '4', '5', '6'].map((seed) => run([...story, '--seed', seed])));
    expect(plays[0]!.out).toBe(plays[1]!.out);
    expect(new Set(plays.map((p) => p.out)).size).toBeGreaterThan(1);
  });
  test('gives data, and the chart beside it', async () => {
    const { out, written } = await run([van, 'ON 1 s', '--json', '--svg', 'a.svg', '--show', 'S1.15']);
    const data = JSON.parse(out) as { samples: { terminals: Record<string, number> }[] };
    expect(data.samples.at(-1)?.terminals['S1.15']).toBeGreaterThan(12);
    expect(written['a.svg']).toMatch(/^<svg /);
  });
  test.each([
    [[van, 'ONN 2 s'], 'unknown-step'],
    [[van, 'ON', '--fault', 'F99 blown'], '--fault'],
    [[van, 'ON', '--show', 'S1.16'], 'S1.15'],
    [[van, 'ON', '--seed', 'x'], 'seed-not-a-number'],
    [[van, 'none.txt'], 'none.txt'],
  ])('%j is a problem', async (words, said) => {
    const { exit, err } = await run(words);
    expect(exit).toBe(1);
    expect(err).toContain(said);
  });
  test('problems as data', async () => {
    const { exit, out } = await run([van, 'ONN 2 s', '--json']);
    expect(exit).toBe(1);
    expect((JSON.parse(out) as { problems: { code: string; column: number }[] }).problems[0]).toMatchObject({
      code: 'unknown-step',
      column: 1,
    });
  });
});
