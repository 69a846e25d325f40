import { spawn, spawnSync } from 'node:child_process';
import { closeSync, existsSync, openSync, readdirSync } from 'node:fs';
import { expect, test } from 'vitest';

/** The command as it is installed; `npm ci` and `npm run types` build it. */
const main = 'dist/cli/cli/main.js';
const detent = (words: readonly string[], env: Record<string, string> = {}) =>
  spawnSync(process.execPath, [main, ...words], { encoding: 'utf8', env: { ...process.env, ...env } });

test('the command line is built', () => {
  expect(existsSync(main)).toBe(true);
});

test('exit codes 0, 1 and 2', () => {
  expect(detent(['check', 'circuits/light-van.yaml']).status).toBe(0);
  expect(detent(['check', 'circuits/none.yaml']).status).toBe(1);
  expect(detent(['cehck']).status).toBe(2);
});

test('no colour unless on a terminal', () => {
  const faulty = `tests/circuit/faulty/${readdirSync('tests/circuit/faulty').find((f) => f.endsWith('-many-at-once.yaml'))}`;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the sign that colour begins with
  for (const env of [{}, { NO_COLOR: '1' }]) expect(detent(['check', faulty], env).stdout).not.toMatch(/\u001b/);
});

test('a reader that closes early is no fault', async () => {
  const child = spawn(process.execPath, [main, 'parts', '--json'], { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  child.stderr.on('data', (text: Buffer) => {
    said += String(text);
  });
  child.stdout.destroy();
  const status = await new Promise((done) => child.on('close', done));
  expect(said).toBe('');
  expect(status).toBe(0);
});

test('a full disk under the output is told, exit 1', () => {
  const full = openSync('/dev/full', 'w');
  const { status, stderr } = spawnSync(process.execPath, [main, 'parts'], { encoding: 'utf8', stdio: ['ignore', full, 'pipe'] });
  closeSync(full);
  expect(stderr).toContain('the output cannot be written (ENOSPC)');
  expect(status).toBe(1);
});
