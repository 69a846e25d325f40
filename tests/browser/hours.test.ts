import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Hour, hourOfUse, reachDesk } from './hours.ts';
import { openBench, openSite, type Site } from './site.ts';

/** `npm run hours` takes 8 at the pace of a busy day; here a few quick ones. */
const hours = Number(process.env['HOURS'] ?? 3);
const drags = hours >= 8 ? 60 : 4;

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

test(`${hours} hours at the bench leave the memory flat within 10 % and the frames as quick as they were`, async () => {
  const { page, context, complaints } = await openBench(site);
  await reachDesk(page);
  const session = await context.newCDPSession(page);
  await session.send('Performance.enable');
  // The first hour fills what is kept for good: fonts, views, answers.
  await hourOfUse(page, session, 0, drags);
  const seen: Hour[] = [];
  for (let hour = 1; hour <= hours; hour++) {
    seen.push(await hourOfUse(page, session, hour, drags));
    if (hours >= 8) console.log(JSON.stringify(seen.at(-1)));
  }
  const [first, last] = [seen[0]!, seen.at(-1)!];
  expect(last.heap_MB, JSON.stringify(seen)).toBeLessThan(first.heap_MB * 1.1);
  expect(last.elements, JSON.stringify(seen)).toBeLessThan(first.elements * 1.1);
  // Half as much again: other work of the machine shows in single hours.
  expect(last.frame_ms, JSON.stringify(seen)).toBeLessThan(first.frame_ms * 1.5 + 5);
  expect(complaints).toEqual([]);
  await context.close();
}, 3_600_000);
