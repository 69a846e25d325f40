import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { partKinds } from '../../src/parts/index.ts';
import { benchText } from '../circuit/benchText.ts';
import { fakeIo } from './fakeIo.ts';

const files = {
  'bench.yaml': benchText,
  'bad.yaml': benchText.replace('power: 5 W', 'power: 5 V'),
  'loose.yaml': benchText.replace('  - { from: S2.2, to: H2.1 }\n', ''),
};
async function ran(...words: string[]) {
  const said = fakeIo(files);
  const exit = await runLine(words, said.io);
  return { exit, out: said.out(), err: said.err() };
}

describe('check', () => {
  test('a sound circuit', async () => {
    expect(await ran('check', 'bench.yaml')).toEqual({
      exit: 0,
      out: 'bench.yaml: Bench board, 12 V: 9 parts, 14 wires: no problems\n  Two lines for the reader',
      err: '',
    });
  });
  test('an error: exit 1, the message with its line', async () => {
    const { exit, out } = await ran('check', 'bench.yaml', 'bad.yaml');
    expect(exit).toBe(1);
    expect(out).toContain('bad.yaml:21:28  wrong-dimension\n  power of H1: `5 V` is a voltage, not a power\n');
    expect(out).toContain('bad.yaml: 1 problem');
  });
  test('a warning alone: exit 0', async () => {
    const { exit, out } = await ran('check', 'loose.yaml');
    expect(exit).toBe(0);
    expect(out).toContain('loose-terminal  (warning)');
  });
  test('a file that is not there, with near names', async () => {
    const { exit, out } = await ran('check', 'circuits/light-vann.yaml');
    expect(exit).toBe(1);
    expect(out).toContain('there is no file circuits/light-vann.yaml');
    expect(out).toContain('circuits/light-van.yaml');
  });
  test('--json has the promised fields', async () => {
    const { exit, out } = await ran('check', 'bench.yaml', 'bad.yaml', 'missing.yaml', '--json');
    expect(exit).toBe(1);
    const data = JSON.parse(out) as {
      files: { file: string; title: string; parts: number; wires: number; problems: Record<string, unknown>[] }[];
    };
    expect(data.files.map((f) => [f.file, f.title, f.parts, f.wires, f.problems.length])).toEqual([
      ['bench.yaml', 'Bench board, 12 V', 9, 14, 0],
      ['bad.yaml', '', 0, 0, 1],
      ['missing.yaml', '', 0, 0, 1],
    ]);
    const problem = data.files[1]!.problems[0]!;
    expect(problem).toMatchObject({ code: 'wrong-dimension', severity: 'error', file: 'bad.yaml', line: 21, column: 28 });
    expect(Object.keys(problem)).toEqual(expect.arrayContaining(['what', 'why', 'mend']));
    expect(Array.isArray(problem['mend'])).toBe(true);
  });
  test('every circuit of the library is sound', async () => {
    const library = readdirSync('circuits').flatMap((f) => (f.endsWith('.yaml') ? [`circuits/${f}`] : []));
    const { exit, out } = await ran('check', ...library);
    expect(exit).toBe(0);
    const lines = out.split('\n');
    expect(lines.filter((line) => !line.startsWith('  ')).map((line) => line.replace(/:.*:/, ''))).toEqual(
      library.map((file) => `${file} no problems`),
    );
    // Each says what it holds and teaches, and what flows with the key out.
    for (const begins of ['  Invented ', '  Teaches: ', '  Key-off current: '])
      expect(lines.filter((line) => line.startsWith(begins)).length).toBe(library.length);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(
      Math.max(80, ...lines.filter((l) => !l.startsWith('  ')).map((l) => l.length)),
    );
  });
});

describe('parts', () => {
  test('one line per kind, in 80 columns', async () => {
    const { exit, out } = await ran('parts');
    expect(exit).toBe(0);
    for (const kind of partKinds) expect(out).toMatch(new RegExp(`^${kind.kind} `, 'm'));
    expect(Math.max(...out.split('\n').map((l) => [...l].length))).toBeLessThanOrEqual(80);
  });
  test.each(partKinds.map((k) => k.kind))('parts %s: every parameter, every default with its source', async (name) => {
    const kind = partKinds.find((k) => k.kind === name)!;
    const { exit, out } = await ran('parts', name);
    expect(exit).toBe(0);
    expect(Math.max(...out.split('\n').map((l) => [...l].length))).toBeLessThanOrEqual(80);
    const sheet = JSON.parse((await ran('parts', name, '--json')).out) as {
      kind: string;
      parameters: { name: string; default?: string; source?: string }[];
    };
    expect(sheet.kind).toBe(name);
    expect(sheet.parameters.map((p) => p.name)).toEqual(Object.keys(kind.parameters));
    for (const p of sheet.parameters) expect(out).toContain(p.name);
    for (const p of sheet.parameters)
      if (p.default !== undefined && !/^(yes|no)$/.test(p.default)) expect(p.source, `${name} ${p.name}`).toBeTruthy();
  });
  test('--json lists every kind', async () => {
    const { kinds } = JSON.parse((await ran('parts', '--json')).out) as { kinds: { kind: string; about: string }[] };
    expect(kinds.map((k) => k.kind)).toEqual(partKinds.map((k) => k.kind));
  });
  test('an unknown kind: exit 1 and near names', async () => {
    const { exit, err } = await ran('parts', 'lmap');
    expect(exit).toBe(1);
    expect(err).toContain('kinds with a near name: `lamp`');
  });
});
