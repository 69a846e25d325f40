import type { Page } from 'playwright-core';
import { violations } from './axe.ts';
import { fault, openBench, pictures, proved, type Site, settled, tellCause } from './site.ts';

export const withFault = `circuit=light-van&scene=ON&fault=${encodeURIComponent(fault)}`;

const viewports = { desktop: { width: 1440, height: 900 }, phone: { width: 360, height: 780 } } as const;
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

/** Every state of the page in one size. */
export const looks = (size: keyof typeof viewports) => states.map((state) => ({ ...state, name: `${state.name}, ${size}`, size }));

type Seen = { readonly complained: readonly string[]; readonly violations: readonly string[] };

/** Takes its picture for a person, light and then dark, and what a machine finds wrong with each. */
export async function lookedAt(
  site: Site,
  { name, size, hash, and }: ReturnType<typeof looks>[number],
): Promise<{ light: Seen; dark: Seen }> {
  const options = { viewport: viewports[size], colorScheme: 'light', hasTouch: size === 'phone', reducedMotion: 'reduce' } as const;
  const { page, context, complaints } = await openBench(site, options, hash);
  await and?.(page);
  const seen = async (colorScheme: 'light' | 'dark'): Promise<Seen> => {
    await page.emulateMedia({ colorScheme });
    await settled(page);
    await page.waitForTimeout(250);
    await page.screenshot({ path: `${pictures}/${name.replaceAll(', ', '-')}-${colorScheme}.png` });
    const complained = complaints.splice(0);
    return { complained, violations: await violations(page) };
  };
  const both = { light: await seen('light'), dark: await seen('dark') };
  await context.close();
  return both;
}
