import { chmodSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { nodeIo } from '../../src/cli/io.ts';

const folder = mkdtempSync(join(tmpdir(), 'detent-'));
const at = (name: string) => join(folder, name);
afterAll(() => {
  chmodSync(folder, 0o700);
  rmSync(folder, { recursive: true });
});
const io = nodeIo();
const code = (read: { ok: boolean; problems: readonly { code: string }[] }) => (read.ok ? 'ok' : read.problems.map((p) => p.code).join());

test('reads text, and says what it cannot read', () => {
  writeFileSync(at('good.yaml'), 'title: Ω\n');
  expect(io.readFile(at('good.yaml'))).toMatchObject({ ok: true, value: 'title: Ω\n' });
  writeFileSync(at('latin.yaml'), Buffer.from([0x74, 0x3a, 0x20, 0xe9, 0x0a]));
  expect(code(io.readFile(at('latin.yaml')))).toBe('file-not-text');
  writeFileSync(at('large.yaml'), 'x'.repeat(2 ** 20 + 1));
  expect(code(io.readFile(at('large.yaml')))).toBe('file-too-large');
  expect(code(io.readFile(folder))).toBe('file-is-folder');
  expect(code(io.readFile(at('none.yaml')))).toBe('file-missing');
  expect(code(io.readFile(at('none/none.yaml')))).toBe('file-missing');
  const near = io.readFile(at('god.yaml'));
  expect(near.ok ? '' : near.problems[0]!.mend.join()).toContain('good.yaml');
});

test('an endless file is refused by its size on the way', () => {
  symlinkSync('/dev/zero', at('zero.yaml'));
  // readFileSync of a device would never end; only the limit on what is read helps.
  expect(code(io.readFile(at('zero.yaml')))).toBe('file-too-large');
});

test('writes whole or not at all, and leaves no draft behind', () => {
  expect(code(io.writeFile(at('out.svg'), '<svg/>'))).toBe('ok');
  expect(readFileSync(at('out.svg'), 'utf8')).toBe('<svg/>');
  expect(code(io.writeFile(at('out.svg'), '<svg>2</svg>'))).toBe('ok');
  expect(readFileSync(at('out.svg'), 'utf8')).toBe('<svg>2</svg>');
  expect(code(io.writeFile(at('none/out.svg'), 'x'))).toBe('folder-missing');
  expect(code(io.writeFile(folder, 'x'))).toBe('file-is-folder');
  expect(code(io.writeFile('/proc/out.svg', 'x'))).toMatch(/not-writable|folder-missing/);
  expect(readdirSync(folder).filter((f) => f.endsWith('.part'))).toEqual([]);
  expect(existsSync(at('out.svg'))).toBe(true);
});
