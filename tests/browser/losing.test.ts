import { afterAll, beforeAll, expect, test } from 'vitest';
import { killed } from './kills.ts';
import { openSite, type Site } from './site.ts';

/** `npm run kills` takes 200 at any moment; here a few, each a fifth of a second after the last keystroke, so that a busy machine does not decide. */
const kills = Number(process.env['KILLS'] ?? 0);
const from = Number(process.env['KILLS_FROM'] ?? 0);
const calm_ms = kills > 0 ? 0 : 200;
/** Typing, opening a job, typing. */
const moments = kills > 0 ? Array.from({ length: kills }, (_, k) => from + k) : [0, 2, 3];

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

test(`a browser killed at ${moments.length} seeded moments, ${calm_ms} ms after a keystroke: at most that keystroke is lost`, async () => {
  const seen = [];
  for (const number of moments) {
    const one = await killed(site.url, 20261125, number, calm_ms);
    seen.push(one);
    if (kills > 10) console.log(JSON.stringify(one));
  }
  expect(seen.filter((k) => k.lost > 1)).toEqual([]);
}, 3_600_000);
