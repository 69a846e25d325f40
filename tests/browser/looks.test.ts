import { afterAll, beforeAll, expect, test } from 'vitest';
import { violations } from './axe.ts';
import { lookedAt, looks, withFault } from './looks.ts';
import { openBench, openSite, pictures, proved, type Site, settled, tellCause } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

test.each(looks('desktop'))(
  '[P11] $name, light and dark: no accessibility violation, picture taken',
  async (look) => {
    const clean = { complained: [], violations: [] };
    expect(await lookedAt(site, look)).toEqual({ light: clean, dark: clean });
  },
  90_000,
);

test('forced colours: the bench stands without its own colours', async () => {
  const { page, context } = await openBench(site, { forcedColors: 'active' }, withFault);
  await page.screenshot({ path: `${pictures}/bench-forced.png` });
  expect(await violations(page)).toEqual([]);
  await context.close();
});

test('printed, the bench is one page of A4', async () => {
  const { page, context } = await openBench(site, {}, withFault);
  const pdf = await page.pdf({ format: 'A4', path: `${pictures}/bench.pdf`, preferCSSPageSize: true });
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length;
  await page.emulateMedia({ media: 'print' });
  await page.screenshot({ path: `${pictures}/bench-print.png` });
  expect(pages).toBe(1);
  await context.close();
});

test('printed, the job sheet is one page of A4', async () => {
  const { page, context } = await openBench(site, {}, 'circuit=light-van&view=cause');
  await tellCause(page, ...proved.map((f) => f.replace('ON: T1 dead, A1 works', 'ON: T1 dead, A1 works, H1 dead, Y1 dead')));
  await page.getByRole('button', { name: 'Job sheet' }).first().click();
  await page.waitForSelector('detent-sheet .paper', { timeout: 60_000 });
  await settled(page);
  const pdf = await page.pdf({ format: 'A4', path: `${pictures}/sheet.pdf`, preferCSSPageSize: true });
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: 718, height: 1046 });
  await page.screenshot({ path: `${pictures}/sheet-print.png` });
  expect(pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length).toBe(1);
  await context.close();
}, 120_000);

test('reduced motion: the needle turns at once', async () => {
  const { page, context } = await openBench(site, { reducedMotion: 'reduce' }, withFault);
  const time = await page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue('--turn').trim());
  expect(['0ms', '0s']).toContain(time);
  await context.close();
});

test('a system that turns dark while the page stands: the colours follow, and the button offers the other ones', async () => {
  const { page, context } = await openBench(site, { colorScheme: 'light' });
  const shown = async () => ({
    ink: await page.evaluate(() => getComputedStyle(document.querySelector('detent-shell')!).color),
    offers: await page.getByRole('button', { name: /^(Light|Dark)$/ }).textContent(),
  });
  const light = await shown();
  await page.emulateMedia({ colorScheme: 'dark' });
  await settled(page);
  const dark = await shown();
  expect([light.offers, dark.offers]).toEqual(['Dark', 'Light']);
  expect(dark.ink).not.toBe(light.ink);
  // Chosen by hand it stays, whatever the system does.
  await page.getByRole('button', { name: 'Light', exact: true }).click();
  await page.emulateMedia({ colorScheme: 'light' });
  await page.emulateMedia({ colorScheme: 'dark' });
  await settled(page);
  expect(await shown()).toEqual(light);
  await context.close();
});
