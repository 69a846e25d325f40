import { readdirSync, readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violations } from './axe.ts';
import { openBench, openSite, pictures, type Site, settled } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

const names = readdirSync('circuits').flatMap((f) => (f.endsWith('.yaml') ? [f.slice(0, -'.yaml'.length)] : []));
const titleOf = (name: string) => /^title: (.+)$/m.exec(readFileSync(`circuits/${name}.yaml`, 'utf8'))![1]!;

async function openLibrary(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Job:/ }).click();
  await page.locator('detent-library article').first().waitFor();
}
const cardOf = (page: Page, name: string) => page.getByRole('article', { name: titleOf(name) });

/** The job on the desk. */
const jobNow = (page: Page) =>
  page.evaluate(() => {
    const { desk } = document.querySelector('detent-shell') as unknown as {
      desk: {
        session: {
          view: string;
          job: { circuit: { name: string }; faults: string[]; notes: { complaint: string; findings: string[]; repair: string[] } };
        };
      };
    };
    return { view: desk.session.view, ...desk.session.job };
  });

test('the library is fetched when it is opened, not before; each circuit has its picture, words and demos', async () => {
  const { page, context, complaints } = await openBench(site, {}, 'circuit=light-van');
  const fetched = () => page.evaluate(() => performance.getEntriesByType('resource').some((r) => r.name.includes('/LibraryChooser-')));
  expect(await fetched()).toBe(false);
  await openLibrary(page);
  expect(await fetched()).toBe(true);
  const cards = page.locator('detent-library article');
  expect(await cards.count()).toBe(names.length);
  for (const name of names) {
    const card = cardOf(page, name);
    const text = ((await card.textContent()) ?? '').replace(/\s+/g, ' ');
    for (const words of ['Invented ', 'Teaches', 'Key-off current', ' parts, ', ' wires', 'three jobs, all invented'])
      expect(text).toContain(words);
    const drawn = await card.locator('svg .wires').evaluate((path) => (path as SVGPathElement).getBBox().width);
    expect(drawn).toBeGreaterThan(100);
    expect(await card.getByRole('button', { includeHidden: true }).count()).toBe(7);
  }
  expect(await page.locator('detent-library article[aria-current=true]').textContent()).toContain(titleOf('light-van'));
  expect(complaints).toEqual([]);
  await context.close();
});

test('a story opens on the bench with its fault in, and is played', async () => {
  const { page, context, complaints } = await openBench(site, {}, 'circuit=bench-board');
  await openLibrary(page);
  const card = cardOf(page, 'light-van');
  await card.getByText('Three stories and three jobs').click();
  await card.getByRole('button', { name: /^Play: Contact 15 is worn/ }).click();
  const story = page.getByLabel('Story', { exact: true });
  await story.waitFor();
  expect(await story.inputValue()).toBe('LOCK, ON 2 s, START 1.5 s, ease to 70° 3 s, release, ON 5 s');
  await page.locator('detent-play').getByText('engine dies').first().waitFor();
  await page.screenshot({ path: `${pictures}/library-story.png` });
  expect(await jobNow(page)).toMatchObject({ view: 'bench', circuit: { name: 'light-van' }, faults: ['S1.30-15 open at ON'] });
  // The next story is another job: it is played in place of the first.
  await openLibrary(page);
  const next = cardOf(page, 'motorcycle');
  await next.getByText('Three stories and three jobs').click();
  await next.getByRole('button', { name: /^Play: In gear/ }).click();
  await page.waitForFunction(() => {
    const shell = document.querySelector('detent-shell')!.shadowRoot!;
    const play = shell.querySelector('detent-bench')!.shadowRoot!.querySelector('detent-play');
    return play?.shadowRoot?.querySelector('input')?.value.startsWith('S5 in gear') === true;
  });
  expect(complaints).toEqual([]);
  await context.close();
});

test('a job opens in Find the cause with its findings, without its cause', async () => {
  const { page, context, complaints } = await openBench(site, {}, 'circuit=bench-board');
  await openLibrary(page);
  const card = cardOf(page, 'bench-board');
  await card.getByText('Three stories and three jobs').click();
  await card.getByRole('button', { name: /^Find the cause: .*board no. 3/ }).click();
  await page.locator('detent-find detent-findings li').first().waitFor();
  const { view, notes, faults } = await jobNow(page);
  expect(view).toBe('cause');
  expect(faults).toEqual([]);
  expect(notes.findings).toContain('ACC: 12.6 V at F3.1');
  expect(notes.repair).toEqual([]);
  await page.locator('detent-find detent-suspects').getByText('F3').first().waitFor();
  expect(complaints).toEqual([]);
  await context.close();
});

for (const { size, viewport } of [
  { size: 'desktop', viewport: { width: 1440, height: 900 } },
  { size: 'phone', viewport: { width: 360, height: 780 } },
] as const)
  for (const colorScheme of ['light', 'dark'] as const)
    test(`[P11] library, ${size}, ${colorScheme}: no violation with the demos open, nothing runs out sideways, targets of 44 px`, async () => {
      const { page, context, complaints } = await openBench(
        site,
        { viewport, colorScheme, reducedMotion: 'reduce' },
        'circuit=bench-board',
      );
      await openLibrary(page);
      await settled(page);
      await page.screenshot({ path: `${pictures}/library-${size}-${colorScheme}.png` });
      const card = cardOf(page, 'saloon');
      await card.getByText('Three stories and three jobs').click();
      await card.evaluate((e) => e.scrollIntoView({ block: 'start' }));
      await settled(page);
      await page.screenshot({ path: `${pictures}/library-demos-${size}-${colorScheme}.png` });
      expect(complaints).toEqual([]);
      expect(await violations(page)).toEqual([]);
      const dialog = page.getByRole('dialog');
      expect(await dialog.evaluate((d) => d.scrollWidth - d.clientWidth)).toBe(0);
      const low = await page
        .locator('detent-library')
        .locator('button, summary')
        .evaluateAll((all) => all.map((e) => e.getBoundingClientRect().height).filter((height) => height > 0 && height < 44));
      expect(low).toEqual([]);
      await context.close();
    }, 90_000);
