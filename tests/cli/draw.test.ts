import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { unsoundXml } from '../report/unsoundXml.ts';
import { fakeIo } from './fakeIo.ts';

async function ran(...words: string[]) {
  const said = fakeIo();
  const exit = await runLine(['draw', 'circuits/light-van.yaml', ...words], said.io);
  return { exit, out: said.out(), err: said.err() };
}

describe('draw', () => {
  test('writes an SVG to the standard output', async () => {
    const { exit, out, err } = await ran('--key', 'ON');
    expect({ exit, err }).toEqual({ exit: 0, err: '' });
    expect(out.startsWith('<svg ')).toBe(true);
    expect(unsoundXml(out)).toEqual([]);
    expect(out).toContain('Key at ON');
  });

  test('-o writes the file and says nothing', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'detent-draw-'));
    try {
      const path = join(folder, 'van.svg');
      expect(await ran('--fault', 'S1.30-15 open', '--key', 'ON', '-o', path)).toEqual({ exit: 0, out: '', err: '' });
      expect(unsoundXml(readFileSync(path, 'utf8'))).toEqual([]);
      expect(readFileSync(path, 'utf8')).toContain('S1 contact 30–15');
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  test('--json gives the layout as data', async () => {
    const layout = JSON.parse((await ran('--json')).out);
    expect(layout.tracks[0]).toMatchObject({ number: 1 });
    expect(layout.poles.map((p: { id: string }) => p.id)).toContain('S1.30-15');
  });

  test.each([
    ['--load', 'T9', 'unknown-load'],
    ['--theme', 'sepia', 'unknown-theme'],
    ['--key', 'OM', 'ON'],
    ['--fault', 'S1.30-15 opn', 'open'],
  ])('%s %s is told with what would do, and nothing is drawn', async (option, word, expected) => {
    const { exit, out, err } = await ran(option, word);
    expect({ exit, out }).toEqual({ exit: 1, out: '' });
    expect(err).toContain(expected);
  });
});
