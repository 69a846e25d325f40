import { createReadStream, existsSync, mkdirSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { launchBrowser } from './findBrowser.ts';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
};

/** The built site under a subpath, as it would stand on somebody's server. */
export type Site = { readonly url: string; readonly browser: Browser; readonly close: () => Promise<void>; readonly asked: string[] };

export const fault = 'S1.30-15 open at ON';
export const pictures = 'artifacts';

export async function openSite(): Promise<Site> {
  if (!existsSync('dist/web/index.html')) throw new Error('dist/web is missing: run npm run build first');
  mkdirSync(pictures, { recursive: true });
  const asked: string[] = [];
  const server: Server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://here').pathname;
    asked.push(path);
    const file = join('dist/web', path.replace(/^\/workshop\//, '/').replace(/\/$/, '/index.html'));
    if (!path.startsWith('/workshop/') || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream', vary: 'Origin' });
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const browser = await launchBrowser();
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/workshop/`;
  const strangers = watched(browser, url);
  return {
    url,
    browser,
    asked,
    close: async () => {
      await browser.close();
      await new Promise((done) => server.close(done));
      // Of every page of every browser test: nobody else is ever asked for anything.
      if (strangers.length > 0) throw new Error(`asked beyond its own origin: ${strangers.join(', ')}`);
    },
  };
}

/** Records whom the pages of a browser ask; the list holds who is neither the site nor part of the page itself. */
function watched(browser: Browser, url: string): readonly string[] {
  const strangers: string[] = [];
  const newContext = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await newContext(options);
    context.on('request', (request) => {
      const own = request.url().startsWith(url) || /^(data|blob|file):/.test(request.url());
      if (!own) strangers.push(request.url());
    });
    return context;
  };
  return strangers;
}

export type Opened = { readonly page: Page; readonly context: BrowserContext; readonly complaints: string[] };

/** A page on the bench with the circuit solved; whatever the browser complains about is collected. */
export async function openBench(site: Site, options: BrowserContextOptions = {}, hash = ''): Promise<Opened> {
  const context = await site.browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  return { page, context, complaints: await go(site, page, hash) };
}

export async function go(site: Site, page: Page, hash = ''): Promise<string[]> {
  const complaints: string[] = [];
  page.on('pageerror', (e) => complaints.push(e.message));
  page.on('console', (m) => {
    if (m.type() === 'error') complaints.push(m.text());
  });
  await page.goto(site.url + (hash === '' ? '' : `#${hash}`));
  await ready(page);
  return complaints;
}

/** Solved and drawn: the table has its cells, or another view has its first content. */
export async function ready(page: Page): Promise<void> {
  await page.waitForSelector(
    'detent-table td[data-at], .broken, detent-find .left, detent-drain-bar, detent-sheet .paper, detent-progress table',
    {
      state: 'attached',
      timeout: 60_000,
    },
  );
  await settled(page);
}

/** Two frames after the last answer. */
export async function settled(page: Page): Promise<void> {
  await page.waitForTimeout(60);
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

type Cell = { readonly load: string; readonly word: string };
/** Words of one line of the table, load by load. */
export function tableLine(page: Page, position: string): Promise<readonly Cell[]> {
  return page.evaluate((name) => {
    const bench = document.querySelector('detent-shell')!.shadowRoot!.querySelector('detent-bench')!;
    const table = bench.shadowRoot!.querySelector('detent-table') as unknown as {
      rows: { id: string; cells: { position: string; word: string }[] }[];
    };
    return table.rows.map((r) => ({ load: r.id, word: r.cells.find((c) => c.position === name)?.word ?? '' }));
  }, position);
}

/** Volts over a load and whether the engine stands, from what is drawn now. */
export function drawnNow(page: Page, load: string): Promise<{ volts: number; verdict: string; line: string }> {
  return page.evaluate((id) => {
    const shell = document.querySelector('detent-shell') as unknown as {
      desk: { answers: { moment: { line: string; moment: { loads: { id: string; volts: number; verdict: string }[] } } } };
    };
    const { moment, line } = shell.desk.answers.moment;
    const seen = moment.loads.find((l) => l.id === id)!;
    return { volts: seen.volts, verdict: seen.verdict, line };
  }, load);
}

/** Findings that prove the worked fault of every circuit with a coil T1 and a radio A1. */
export const proved = [
  'START: engine fires',
  'ON after START: engine dies',
  'ON: T1 dead, A1 works',
  'ON: 12.4 V at S1.30',
  'ON: 0.02 V at S1.15',
  'off the vehicle: S1.30 to S1.15 at ON open',
  'off the vehicle: S1.30 to S1.15 at START 0.01 Ω',
];

/** Types findings into the view that searches, and waits until they are noted. */
export async function tellCause(page: Page, ...phrases: string[]): Promise<void> {
  const isPhone = (page.viewportSize()?.width ?? 1440) < 900;
  const find = page.locator('detent-find');
  if (isPhone)
    await find
      .getByRole('button', { name: /^Findings/ })
      .first()
      .click();
  await find.getByRole('button', { name: 'Add a finding' }).first().click();
  const field = page.getByLabel('In words, or a reading');
  for (const phrase of phrases) {
    await field.fill(phrase);
    await field.press('Enter');
    await page.waitForFunction(
      () =>
        document
          .querySelector('detent-shell')!
          .shadowRoot!.querySelector('detent-find')!
          .shadowRoot!.querySelector('detent-seen')!
          .shadowRoot!.querySelector<HTMLInputElement>('#phrase')!.value === '',
      undefined,
      { timeout: 60_000 },
    );
  }
  await find.getByRole('button', { name: 'Done' }).click();
  if (isPhone) await find.getByRole('button', { name: 'Next', exact: true }).click();
}
