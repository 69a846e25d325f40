import { afterAll, beforeAll, expect, test } from 'vitest';
import { lookedAt, looks } from './looks.ts';
import { openSite, type Site } from './site.ts';

// A file of its own: files run side by side, and the pictures take longest of all.
let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

test.each(looks('phone'))(
  '[P11] $name, light and dark: no accessibility violation, picture taken',
  async (look) => {
    const clean = { complained: [], violations: [] };
    expect(await lookedAt(site, look)).toEqual({ light: clean, dark: clean });
  },
  90_000,
);
