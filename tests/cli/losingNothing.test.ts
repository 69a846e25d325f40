import fs, { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, expect, test, vi } from 'vitest';
import { type Io, nodeIo } from '../../src/cli/io.ts';
import { runLine } from '../../src/cli/runLine.ts';
import { fakeIo } from './fakeIo.ts';

/** What the system refuses; undefined: nothing. */
const refusing = vi.hoisted(() => ({ write: undefined as string | undefined, rename: undefined as string | undefined }));
vi.mock('node:fs', async (importOriginal) => {
  const real = await importOriginal<typeof fs>();
  const refusal = (code: string) => Object.assign(new Error(code), { code });
  return {
    ...real,
    // A disk that fills up takes a part of the text first.
    writeFileSync: (path: string, text: string, options: object) => {
      if (refusing.write === undefined) return real.writeFileSync(path, text, options);
      if (refusing.write === 'ENOSPC') real.writeFileSync(path, text.slice(0, text.length / 2), options);
      throw refusal(refusing.write);
    },
    renameSync: (from: string, to: string) => {
      if (refusing.rename !== undefined) throw refusal(refusing.rename);
      real.renameSync(from, to);
    },
  };
});
const folder = mkdtempSync(join(tmpdir(), 'detent-full-'));
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => {
  refusing.write = undefined;
  refusing.rename = undefined;
});

test.each([
  { full: 'a disk that is full', write: 'ENOSPC', rename: undefined, code: 'disk-full' },
  { full: 'a quota that is used up', write: 'EDQUOT', rename: undefined, code: 'disk-full' },
  { full: 'a folder that may only be read', write: 'EACCES', rename: undefined, code: 'not-writable' },
  { full: 'a disk that may only be read', write: 'EROFS', rename: undefined, code: 'not-writable' },
  { full: 'a file that may not be replaced', write: undefined, rename: 'EPERM', code: 'not-writable' },
])('$full: the old file stays as it was, no draft is left, and it is said', ({ write, rename, code }) => {
  const path = join(folder, 'job.yaml');
  fs.writeFileSync(path, 'what was there before\n');
  Object.assign(refusing, { write, rename });
  const written = nodeIo().writeFile(path, 'something much longer than what was there before\n');
  expect(written.problems.map((p) => p.code)).toEqual([code]);
  expect(written.problems[0]!.why).toContain('unchanged');
  expect(written.problems[0]!.mend.length).toBeGreaterThan(0);
  expect(readFileSync(path, 'utf8')).toBe('what was there before\n');
  expect(readdirSync(folder)).toEqual(['job.yaml']);
});

test('files of the command line are written in one place only', () => {
  const sources = readdirSync('src/cli', { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts'));
  const writing = sources.filter((name) =>
    /\b(writeFile|writeFileSync|createWriteStream|appendFile|appendFileSync|writeSync|copyFile|copyFileSync|renameSync)\b.*from 'node:fs/.test(
      readFileSync(join('src/cli', name), 'utf8').replaceAll(/\s+/g, ' '),
    ),
  );
  expect(writing).toEqual(['io.ts']);
});

/** The disk is full: every writing is refused as `writeFile` refuses it. */
const fullDisk = (tried: string[]): Pick<Io, 'writeFile'> => ({
  writeFile: (path) => {
    tried.push(path);
    const at = { file: path, line: 1, column: 1, length: 1, severity: 'error' as const };
    return { ok: false, problems: [{ ...at, code: 'disk-full', what: `no room for ${path}`, why: 'nothing was written', mend: ['room'] }] };
  },
});
const board = 'circuits/bench-board.yaml';
const list = 'No;From;To\n1;G1.+;F1.1\n2;F1.2;H1.1\n3;H1.2;G1.-\n';

test.each([
  ['draw', [board, '-o', 'out']],
  ['play', [board, 'ON 1 s', '--svg', 'out']],
  ['diagnose', [board, '--saw', 'ON: H1 dead', '-o', 'out']],
  ['plan', [board, '--saw', 'ON: H1 dead', '-o', 'out']],
  ['export', [board, '--csv', '-o', 'out']],
  ['import', ['list.csv', '-o', 'out']],
  ['fit', [board, '--read', 'key out: 12.5 V at G1.+', '-o', 'out']],
  ['practise', [board, '--hide', 'S1.30-15 open', '-o', 'out']],
])('%s on a full disk says so, ends with 1, and does not say that it was done', async (command, words) => {
  const tried: string[] = [];
  const { io, out, err } = fakeIo({ 'list.csv': list }, fullDisk(tried));
  expect(await runLine([command, ...words], io)).toBe(1);
  expect(tried).toEqual(['out']);
  expect(err()).toContain('no room for out');
  expect(out()).not.toMatch(/[Ww]ritten/);
});

test('a sheet that cannot be written does not cost the result, and a class sheet that cannot be read is not written over', async () => {
  const latin = join(folder, 'class.csv');
  writeFileSync(latin, Buffer.from('Name;Zoë\n', 'latin1'));
  const written: string[] = [];
  const { io, err } = fakeIo(
    {},
    {
      lines: async function* () {
        yield 'give up';
      },
      writeFile: (path, text) => {
        if (path === 'sheet.md') return fullDisk([]).writeFile(path, text);
        written.push(path);
        return { ok: true, value: undefined, problems: [] };
      },
    },
  );
  const words = ['--level', '3', '--seed', '2', '--sheet', 'sheet.md', '--class', latin, '--progress', 'new.json'];
  expect(await runLine(['practise', board, ...words], io)).toBe(1);
  expect(err()).toContain('no room for sheet.md');
  expect(err()).toContain('not text in UTF-8');
  expect(written).toEqual(['new.json']);
});
