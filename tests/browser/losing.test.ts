import { afterAll, beforeAll, expect, test } from 'vitest';
import { killed } from './kills.ts';
import { openSite, type Site } from './site.ts';

/** `npm run kills` takes 200. */
const kills = Number(process.env['KILLS'] ?? 3);
const from = Number(process.env['KILLS_FROM'] ?? 0);

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

test(`a browser killed at ${kills} seeded moments of typing, dragging, opening: at most the last keystroke is lost`, async () => {
  const seen = [];
  for (let number = from; number < from + kills; number++) {
    const one = await killed(site.url, 20261125, number);
    seen.push(one);
    if (kills > 10) console.log(JSON.stringify(one));
  }
  expect(seen.filter((k) => k.lost > 1)).toEqual([]);
}, 3_600_000);
