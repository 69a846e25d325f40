import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBench, openSite, type Site, settled } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

/** Every text and attribute of the page, through all shadow roots. */
const wholePage = `(() => {
  const words = [];
  const walk = (node) => {
    if (node.nodeType === 3) words.push(node.data);
    for (const a of node.attributes ?? []) words.push(a.value);
    if (node.shadowRoot) walk(node.shadowRoot);
    for (const child of node.childNodes) walk(child);
  };
  walk(document.documentElement);
  return words.join('\\n');
})()`;

test('[P12] an exercise is played by keyboard alone; page and storage do not give the fault away before the debrief', {
  timeout: 240_000,
}, async () => {
  const { page, context, complaints } = await openBench(site, {}, 'circuit=bench-board&scene=');
  await page.getByRole('button', { name: 'Practise' }).first().focus();
  await page.keyboard.press('Enter');
  const level = page.getByRole('combobox', { name: 'Level' });
  await level.waitFor();
  await level.focus();
  await level.selectOption('3');
  await page.getByRole('textbox', { name: 'Seed' }).fill('1');
  await page.keyboard.press('Enter');
  await page.getByText('Level 3, open contact.').waitFor({ timeout: 120_000 });
  const typed = page.getByRole('textbox', { name: 'Or type it' });
  const type = async (line: string, said: RegExp) => {
    await typed.focus();
    await typed.fill(line);
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('detent-practise .log').last().textContent(), { timeout: 30_000 }).toMatch(said);
  };
  await type('ON', /ON\./);
  await type('look', /Radio \(A1\) dead/);
  await type('volts S1.75', /at S1\.75/);
  const stored = await page.evaluate(async () => {
    const all: string[] = [JSON.stringify({ ...localStorage }), JSON.stringify({ ...sessionStorage }), location.href];
    for (const { name } of await indexedDB.databases()) {
      const base = await new Promise<IDBDatabase>((done) => {
        const open = indexedDB.open(name!);
        open.onsuccess = () => done(open.result);
      });
      for (const store of base.objectStoreNames)
        all.push(
          JSON.stringify(
            await new Promise((done) => {
              const got = base.transaction(store).objectStore(store).getAll();
              got.onsuccess = () => done(got.result);
            }),
          ),
        );
      base.close();
    }
    return all.join('\n');
  });
  // The list of faults to name is everybody's; the answer must not stand out anywhere else.
  const text = String(await page.evaluate(wholePage));
  const named = text.split('\n').filter((line) => line.includes('S1.30-75 open at ON'));
  const other = text.split('\n').filter((line) => line.includes('S1.30-75 open at ACC'));
  expect(named.length).toBe(other.length);
  expect(stored.includes('open at')).toBe(false);
  expect(stored).toContain('digest');
  await page.getByRole('button', { name: /A hint/ }).focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => page.locator('detent-practise .right').textContent(), { timeout: 60_000 }).toContain('Hint 1');
  await page.screenshot({ path: 'artifacts/practise-desk.png' });
  const name = page.getByRole('combobox', { name: 'Fault' });
  await name.focus();
  await name.fill('S1.30-75 open at ON');
  await page.keyboard.press('Enter');
  const heading = page.locator('detent-debrief h2');
  await heading.waitFor({ timeout: 120_000 });
  expect(await heading.textContent()).toMatch(/^Right/);
  expect(await page.locator('detent-debrief .marks').textContent()).toContain('Together');
  expect(await page.locator('detent-debrief svg').getAttribute('aria-label')).toMatch(/Suspects left/);
  await settled(page);
  await page.screenshot({ path: 'artifacts/practise-debrief.png' });
  expect(complaints).toEqual([]);
  await context.close();
});

test('an instructor writes an exercise whose file does not name the fault', { timeout: 240_000 }, async () => {
  const { page, context } = await openBench(site, {}, 'circuit=bench-board&scene=');
  await page.getByRole('button', { name: 'Practise' }).first().click();
  await page.getByText('For instructors').click();
  await page.getByRole('textbox', { name: 'Faults' }).fill('S1.30-15 open at ON');
  const download = page.waitForEvent('download', { timeout: 120_000 });
  await page.getByRole('button', { name: 'Check and save' }).click();
  const file = await download;
  const stream = await file.createReadStream();
  let text = '';
  for await (const chunk of stream) text += String(chunk);
  expect(text).toContain('sealed:');
  expect(text).not.toContain('S1.30-15 open');
  await context.close();
});
