import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBench, openSite, ready, type Site, settled } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

const attack = '<img src=x onerror=globalThis.slipped=1><script>globalThis.slipped=1</script>{{7*7}}javascript:alert(1)';
const quoted = JSON.stringify(attack);

/** Attacks in every text that a circuit may hold. */
const circuit = `title: ${quoted}
about: ${quoted}
cautions: [ ${quoted} ]
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω, name: ${quoted}, place: ${quoted}, note: ${quoted} }
  S1:
    kind: key-switch
    name: ${quoted}
    positions: { LOCK: { at: 0°, key-out: yes }, ON: { at: 60° } }
    contacts: { 30-15: [ 48°..95° ] }
  F1: { kind: fuse, rating: 10 A, name: ${quoted} }
  H1: { kind: lamp, power: 5 W, name: "__proto__" }
  H2: { kind: lamp, power: 5 W, name: ${quoted}, note: ${quoted} }
wires:
  - { from: G1.+, to: F1.1, colour: ${quoted} }
  - { from: F1.2, to: S1.30 }
  - { from: S1.15, to: H1.1 }
  - { from: S1.15, to: H2.1 }
  - { from: H1.2, to: ground }
  - { from: H2.2, to: ground }
  - { from: G1.-, to: ground }
`;

/** Files that are refused, with what must be said. */
const refused: readonly (readonly [name: string, text: string])[] = [
  ['turned signs', 'title: "a\u202eb"\nparts: {}\n'],
  ['control signs', 'title: "a\u0007b"\nparts: {}\n'],
  ['a name of 10 MB', `title: ${'x'.repeat(10_000_000)}\n`],
  ['a name of 1 MB', `title: t\nparts:\n  ${'x'.repeat(1_000_000)}: { kind: nothing }\n`],
  ['deep nesting', `title: ${'['.repeat(5000)}\n`],
  [
    'a bomb of aliases',
    `a: &a [x,x,x,x,x,x,x,x,x]\n${[...'bcdefghi'].map((k, n) => `${k}: &${k} [${Array(9).fill(`*${'abcdefghi'[n]}`).join(',')}]`).join('\n')}\n`,
  ],
  [
    'prototype keys',
    'title: t\n__proto__: { polluted: yes }\nparts: { __proto__: { kind: lamp }, constructor: { prototype: { polluted: yes } } }\n',
  ],
  ['tags that call', 'title: !!js/function "function () { globalThis.slipped = 1 }"\n'],
  ['a page', '<!doctype html><script>globalThis.slipped=1</script>'],
];

const take = (page: Page, text: string) =>
  page.evaluate((held) => {
    const shell = document.querySelector('detent-shell') as unknown as { desk: { beginJob: (c: unknown) => void } };
    shell.desk.beginJob({ from: 'file', name: held.slice(0, 40), text: held });
  }, text);

/** What no text of a circuit may bring into the page, however deep it is put. */
const brought = (page: Page) =>
  page.evaluate(() => {
    const found: string[] = [];
    const look = (root: Document | ShadowRoot) => {
      for (const element of root.querySelectorAll('*')) {
        if (['IMG', 'IFRAME', 'OBJECT', 'EMBED', 'BASE', 'META', 'LINK'].includes(element.tagName) && root !== document)
          found.push(element.tagName);
        if (element.tagName === 'SCRIPT' && !element.hasAttribute('src')) found.push('inline script');
        for (const { name, value } of element.attributes)
          if (/^on/i.test(name) || (/^(href|src|action)$/i.test(name) && /^\s*javascript:/i.test(value))) found.push(`${name}=${value}`);
        if (element.shadowRoot) look(element.shadowRoot);
      }
    };
    look(document);
    const held = globalThis as { slipped?: unknown; polluted?: unknown };
    return { found, slipped: held.slipped, polluted: ({} as { polluted?: unknown }).polluted, at: location.pathname };
  });

const nothing = { found: [], slipped: undefined, polluted: undefined, at: '/workshop/' };

test('a circuit full of attacks is shown as its own text, in every view', async () => {
  const { page, context, complaints } = await openBench(site);
  await take(page, circuit);
  await ready(page);
  const tabs = page.getByRole('navigation', { name: 'Views', exact: true }).getByRole('button');
  const words = await tabs.allTextContents();
  await page.getByRole('button', { name: 'ON', exact: true }).click();
  await settled(page);
  for (const word of words) {
    await page.getByRole('navigation', { name: 'Views', exact: true }).getByRole('button', { name: word, exact: true }).click();
    await page.waitForTimeout(400);
    await settled(page);
    expect(await brought(page), word).toEqual(nothing);
    expect(await tabs.allTextContents()).toEqual(words);
  }
  expect(await page.getByRole('button', { name: /^Job: / }).textContent()).toContain('<img src=x');
  expect(complaints).toEqual([]);
  await context.close();
}, 120_000);

test('files that want to do harm are refused in words, at once, and the page goes on', async () => {
  const { page, context, complaints } = await openBench(site);
  for (const [name, text] of refused) {
    await take(page, text);
    await page.locator('.broken .problems li').first().waitFor({ timeout: 20_000 });
    const said = (await page.locator('.broken .problems').textContent()) ?? '';
    expect(said.length, name).toBeGreaterThan(40);
    expect(said.length, name).toBeLessThan(100_000);
    expect(await brought(page), name).toEqual(nothing);
    await page.evaluate(() =>
      (document.querySelector('detent-shell') as unknown as { desk: { beginJob: (c: unknown) => void } }).desk.beginJob({
        from: 'library',
        name: 'bench-board',
      }),
    );
    await ready(page);
    await page.locator('.broken').waitFor({ state: 'detached' });
  }
  expect(complaints).toEqual([]);
  await context.close();
}, 120_000);

test('a link with the names that every object has opens no circuit of that name, says so, and the page goes on', async () => {
  const context = await site.browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (e) => complaints.push(e.message));
  for (const name of ['__proto__', 'constructor', 'toString']) {
    await page.goto('about:blank');
    await page.goto(`${site.url}#circuit=${name}&scene=${name}&fault=${name}&view=${name}&__proto__=polluted`);
    await page.locator('.broken .problems li').first().waitFor({ timeout: 60_000 });
    expect((await page.locator('.broken .problems').textContent())?.length, name).toBeGreaterThan(20);
    expect(await brought(page), name).toEqual(nothing);
  }
  expect(complaints).toEqual([]);
  await context.close();
});
