import { afterAll, beforeAll } from 'vitest';
import { lookAt } from './looks.ts';
import { openSite, type Site } from './site.ts';

// A file of its own: files run side by side, and the pictures take longest of all.
let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

lookAt('phone', () => site);
