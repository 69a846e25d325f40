import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBench, openSite, type Site } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

test('the first load takes no more than 150 kB of script, packed: page, worker that solves, and the circuit', async () => {
  const before = site.asked.length;
  // The service worker fetches everything for later, beside the first load.
  const { context, complaints } = await openBench(site, { serviceWorkers: 'block' });
  await context.close();
  const scripts = [...new Set(site.asked.slice(before))].filter((path) => path.endsWith('.js')).map((path) => basename(path));
  const bytes = scripts.map((name) => gzipSync(readFileSync(join('dist/web/assets', name))).length);
  expect(complaints).toEqual([]);
  expect(scripts.some((name) => name.startsWith('index-'))).toBe(true);
  expect(scripts.some((name) => name.startsWith('solveWorker-'))).toBe(true);
  expect(scripts.some((name) => name.startsWith('light-van-'))).toBe(true);
  expect(bytes.reduce((sum, b) => sum + b, 0)).toBeLessThanOrEqual(150_000);
});
