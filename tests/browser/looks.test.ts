import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violations } from './axe.ts';
import { fault, openBench, openSite, pictures, proved, type Site, settled, tellCause } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

const withFault = `circuit=light-van&scene=ON&fault=${encodeURIComponent(fault)}`;

const sizes = [
  { name: 'desktop', viewport: { width: 1440, height: 900 } },
  { name: 'phone', viewport: { width: 360, height: 780 } },
] as const;
const states: readonly { readonly name: string; readonly hash: string; readonly and?: (page: Page) => Promise<void> }[] = [
  { name: 'bench', hash: withFault },
  {
    name: 'bench-meter',
    hash: withFault,
    and: async (page) => {
      await page.getByRole('button', { name: 'Use a meter' }).click();
      await page.getByRole('combobox', { name: 'A, red lead' }).fill('S1.15');
      await page.keyboard.press('Tab');
      await page.getByRole('combobox', { name: 'B, black lead' }).fill('ground');
      await page.keyboard.press('Tab');
    },
  },
  {
    name: 'cause',
    hash: 'circuit=bench-board&view=cause',
    and: async (page) => {
      await tellCause(page, 'START: engine fires', 'ON after START: engine dies', 'ON: T1 dead, A1 works');
      await page.waitForSelector('detent-find .status', { state: 'detached', timeout: 60_000 });
      await page.waitForSelector('detent-next', { timeout: 60_000 });
    },
  },
  {
    name: 'cause-seen',
    hash: 'circuit=bench-board&view=cause',
    and: async (page) => {
      await tellCause(page, 'START: engine fires');
      const findings = page
        .locator('detent-find')
        .getByRole('button', { name: /^Findings/ })
        .filter({ visible: true });
      if ((await findings.count()) > 0) await findings.first().click();
      await page.locator('detent-find').getByRole('button', { name: 'Add a finding' }).first().click();
      await page
        .locator('detent-seen')
        .getByRole('button', { name: /^Ignition coil.*, ON: / })
        .first()
        .click();
    },
  },
  {
    name: 'cause-clash',
    hash: 'circuit=bench-board&view=cause',
    and: async (page) => {
      await tellCause(page, 'ON: 12.4 V at S1.15', 'ON: 0.02 V at S1.15', 'ON: T1 works');
      await page.waitForSelector('detent-findings li.clashes', { state: 'attached', timeout: 60_000 });
    },
  },
  {
    name: 'drain',
    hash: 'circuit=bench-board&view=drain',
    and: async (page) => {
      await page.getByLabel(/^Read at G1/).fill('840');
      await page.getByLabel(/^Read at G1/).press('Enter');
      await page.getByLabel('Fault supposed').fill('S1.30-75 stuck closed');
      await page.getByLabel('Fault supposed').press('Tab');
      await page.waitForSelector('detent-drain .titled', { timeout: 60_000 });
      await page.waitForTimeout(600);
    },
  },
  {
    name: 'sheet',
    hash: 'circuit=bench-board&view=cause',
    and: async (page) => {
      await tellCause(page, ...proved);
      await page
        .getByRole('button', { name: /^(Job sheet|Sheet)$/ })
        .filter({ visible: true })
        .first()
        .click();
      await page.waitForSelector('detent-sheet .paper', { timeout: 60_000 });
    },
  },
  { name: 'jobs', hash: 'circuit=light-van', and: (page) => page.getByRole('button', { name: /^Job:/ }).click() },
];

for (const { name: size, viewport } of sizes)
  for (const colorScheme of ['light', 'dark'] as const)
    for (const state of states)
      test(`[P11] ${state.name}, ${size}, ${colorScheme}: no accessibility violation, picture taken`, async () => {
        const { page, context, complaints } = await openBench(
          site,
          { viewport, colorScheme, hasTouch: size === 'phone', reducedMotion: 'reduce' },
          state.hash,
        );
        await state.and?.(page);
        await settled(page);
        await page.waitForTimeout(250);
        await page.screenshot({ path: `${pictures}/${state.name}-${size}-${colorScheme}.png` });
        expect(complaints).toEqual([]);
        complaints.length = 0;
        expect(await violations(page)).toEqual([]);
        await context.close();
      }, 90_000);

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
