import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBench, openSite, type Site } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

const enter = async (page: Page, milliamperes: string, said: string) => {
  const field = page.getByLabel(/^Read at G1/);
  await field.fill(milliamperes);
  await field.press('Enter');
  await page.locator('detent-drain dd', { hasText: `key out: ${said} at G1.-` }).waitFor();
};
const suppose = async (page: Page, fault: string) => {
  await page.getByLabel('Fault supposed').fill(fault);
  await page.getByLabel('Fault supposed').press('Tab');
  await page.locator('detent-drain .titled', { hasText: fault }).waitFor({ timeout: 60_000 });
};

test('a stuck accessory contact is held against the reading: the radio and blower would draw 1.15 A, so 840 mA rejects it', async () => {
  const { page, context, complaints } = await openBench(site, {}, 'circuit=bench-board&view=drain');
  expect(await page.locator('detent-drain .result').textContent()).toContain('No current entered.');
  await enter(page, '840', '840 mA');
  await suppose(page, 'S1.30-75 stuck closed');
  await page.locator('detent-drain .over', { hasText: 'rejected' }).waitFor({ timeout: 60_000 });
  // Radio 0.3 A and a 10 W lamp at 12.6 V as blower, circuits/bench-board.yaml: by hand 0.3 + 10 · 12.6 / 144 = 1.17 A.
  const label = (await page.locator('detent-drain-bar .on').textContent()) ?? '';
  expect(Math.abs(Number.parseFloat(label) - 1.17)).toBeLessThan(0.05);
  expect(complaints).toEqual([]);
  await context.close();
}, 120_000);

test('with the reading that fits, a fuse drop decides: the table takes it and says the current', async () => {
  const { page, context } = await openBench(site, {}, 'circuit=bench-board&view=drain');
  await enter(page, '1150', '1.15 A');
  await suppose(page, 'S1.30-75 stuck closed');
  await page.locator('detent-drain .over', { hasText: 'still open' }).waitFor({ timeout: 60_000 });
  const field = page.getByLabel('Read across F3, mV');
  await field.fill('35.7');
  await field.press('Enter');
  await page.locator('detent-drain tr', { hasText: 'F3' }).getByText(/35\.7/).first().waitFor({ timeout: 60_000 });
  expect(await page.locator('detent-drain dl').textContent()).toContain('35.7 mV from F3.1 to F3.2');
  await context.close();
}, 120_000);

test('a measured log is read in pieces and drawn with its steps', async () => {
  const { page, context } = await openBench(site, {}, 'circuit=bench-board&view=drain');
  const rows = Array.from({ length: 4000 }, (_x, k) => `${k};${k < 600 ? 900 : 5}`);
  await page.locator('detent-drain input[type=file]').setInputFiles({
    name: 'night.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(`time [s];current [mA]\n${rows.join('\n')}\n`),
  });
  await page.waitForSelector('detent-log', { timeout: 60_000 });
  expect(await page.locator('detent-log ul').textContent()).toContain('4000 rows');
  await context.close();
}, 120_000);

test('a circuit that the terminal serves stands on the desk and stays there', async () => {
  const text = readFileSync('circuits/bench-board.yaml', 'utf8').replace(/^title:.*$/m, 'title: Served from a shell');
  const context = await site.browser.newContext();
  await context.route('**/opened.yaml', (route) => route.fulfill({ contentType: 'text/plain', body: text }));
  const page = await context.newPage();
  await page.goto(`${site.url}?open=opened.yaml&name=shell.yaml`);
  await page.getByRole('button', { name: /^Job: Served from a shell/ }).waitFor({ timeout: 30_000 });
  expect(page.url()).not.toContain('open=');
  await page.waitForTimeout(1000);
  await page.goto(site.url);
  await page.getByRole('button', { name: /^Job: Served from a shell/ }).waitFor({ timeout: 30_000 });
  await context.close();
}, 90_000);
