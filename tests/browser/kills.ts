import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { type Dice, diceOf } from '../fuzz/dice.ts';
import { launchKeeping } from './findBrowser.ts';
import { ready } from './site.ts';

/** What one killed browser had taken in, and what was there when it was opened again. */
export type Killed = {
  readonly number: number;
  readonly during: 'typing' | 'dragging' | 'opening a job';
  /** Keystrokes or moves that the page had been given, and how many of the last of them were gone. */
  readonly given: number;
  readonly lost: number;
};

type Word = {
  readonly during: Killed['during'];
  readonly act: (page: Page, dice: Dice, given: (what: string) => void) => Promise<void>;
  readonly shows: (page: Page) => Promise<string>;
};

const vehicle = (page: Page) => page.evaluate(() => desk().job.notes.vehicle);
const angle = (page: Page) => page.evaluate(() => String(Math.round(desk().job.scene.key.angle * 10)));
declare function desk(): { job: { notes: { vehicle: string }; scene: { key: { angle: number } } }; beginJob: (c: unknown) => void };

const writing = async (page: Page, dice: Dice, given: (what: string) => void) => {
  let text = await vehicle(page);
  for (;;) {
    const letter = String.fromCharCode(97 + dice.roll(26));
    text += letter;
    given(text);
    await page.keyboard.type(letter);
    if (dice.once(3)) await page.waitForTimeout(dice.roll(40));
  }
};

const words: readonly Word[] = [
  {
    during: 'typing',
    act: async (page, dice, given) => {
      await page.getByRole('button', { name: /^Job: / }).click();
      await page.getByRole('textbox', { name: 'Vehicle' }).focus();
      await writing(page, dice, given);
    },
    shows: vehicle,
  },
  {
    during: 'dragging',
    act: async (page, dice, given) => {
      await page.getByRole('slider', { name: 'Key' }).focus();
      // Always onwards, and told before the key is pressed: a state that came twice, or that was kept before it was told, could not
      // be told from one that was lost.
      for (let degrees = Number(await angle(page)) / 10 + 1; ; degrees++) {
        given(String(degrees * 10));
        await page.keyboard.press('ArrowRight');
        if (dice.once(3)) await page.waitForTimeout(dice.roll(40));
      }
    },
    shows: angle,
  },
  {
    during: 'opening a job',
    act: async (page, dice, given) => {
      await page.evaluate(() => desk().beginJob({ from: 'library', name: 'boat' }));
      given('');
      await page.getByRole('button', { name: /^Job: / }).click();
      await page.getByRole('textbox', { name: 'Vehicle' }).focus();
      await writing(page, dice, given);
    },
    shows: vehicle,
  },
];

/**
 * Opens the page in a browser of its own, works, kills the browser's process in the midst of it, opens it again.
 *
 * @param number  which of the seeded moments
 * @param calm_ms time without a keystroke before the kill; 0: in the midst of it
 */
export async function killed(url: string, seed: number, number: number, calm_ms = 0): Promise<Killed> {
  const folder = mkdtempSync(join(tmpdir(), 'detent-kill-'));
  const dice = diceOf(seed, number);
  const { during, act, shows } = words[number % words.length]!;
  try {
    const first = await launchKeeping(folder);
    const page = await opened(first, url);
    const given: string[] = [];
    let enough: () => void = () => undefined;
    const wanted = 2 + dice.roll(30);
    const reached = new Promise<void>((done) => {
      enough = done;
    });
    const work = act(page, dice, (what) => {
      if (given.at(-1) !== what) given.push(what);
      if (given.length < wanted) return;
      enough();
      if (calm_ms > 0) throw new Error('the hand rests');
    }).catch(() => undefined); // broken off by the kill
    await reached;
    await new Promise((done) => setTimeout(done, calm_ms + dice.roll(25)));
    const before = given.length;
    await kill(first);
    await work;
    const again = await launchKeeping(folder);
    const now = await shows(await opened(again, url));
    await again.close();
    // Keystrokes that were given while the kill was under way may or may not have arrived.
    const at = Math.max(given.lastIndexOf(now), given.slice(0, before).lastIndexOf(now));
    return { number, during, given: before, lost: Math.max(0, before - 1 - at) };
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

async function opened(context: BrowserContext, url: string): Promise<Page> {
  const page = context.pages()[0] ?? (await context.newPage());
  await page.addInitScript(() => {
    Object.assign(globalThis, { desk: () => (document.querySelector('detent-shell') as unknown as { desk: unknown }).desk });
  });
  await page.goto(url);
  await ready(page);
  return page;
}

/** The browser's main process dies at once, without a chance to write anything. */
async function kill(context: BrowserContext): Promise<void> {
  const session = await context.browser()!.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  const main = processInfo.find((p) => p.type === 'browser')!;
  const gone = new Promise((done) => context.once('close', done));
  process.kill(main.id, 'SIGKILL');
  await gone;
}
