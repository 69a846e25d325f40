import type { Download, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violations } from './axe.ts';
import { fault, openBench, openSite, type Site, settled } from './site.ts';

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

/** Everything that the page keeps, in all its stores, and its address. */
const allStored = (page: Page): Promise<string> =>
  page.evaluate(async () => {
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

async function textOf(download: Download): Promise<string> {
  let text = '';
  for await (const chunk of await download.createReadStream()) text += String(chunk);
  return text;
}

test('[P11] [P12] an exercise is played by keyboard alone; page and storage do not give the fault away before the debrief', {
  timeout: 240_000,
}, async () => {
  const { page, context, complaints } = await openBench(site, {}, 'circuit=bench-board&scene=');
  await page.getByRole('button', { name: 'Practise' }).first().focus();
  await page.keyboard.press('Enter');
  const level = page.getByRole('combobox', { name: 'Level', exact: true });
  await level.waitFor();
  await level.focus();
  await level.selectOption('3');
  await page.getByRole('textbox', { name: 'Exercise number' }).fill('4');
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
  await type('look', /dead: .*Radio \(A1\)/);
  await type('volts S1.75', /at S1\.75/);
  // The key on its arc: one turn of the hand is one step, however many marks it passes; a sprung place is held until it is let go.
  const log = page.locator('detent-practise .log').last();
  const steps = await log.locator('tr').count();
  await page.getByRole('slider', { name: 'Key' }).focus();
  await page.keyboard.press('Home');
  await page.keyboard.press('PageUp');
  await expect.poll(() => log.locator('tr').last().textContent()).toContain('ACC after ON');
  expect(await log.locator('tr').count()).toBe(steps + 1);
  await page.keyboard.press('End');
  await expect.poll(() => log.locator('tr').last().textContent()).toContain('START');
  await page.getByRole('button', { name: 'Let go' }).focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => log.locator('tr').last().textContent()).toContain('springs back to ON');
  const stored = await allStored(page);
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
  expect(await violations(page)).toEqual([]);
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
  expect(await violations(page)).toEqual([]);
  // The result is counted, for whichever job comes next; the line for the class sheet goes out as CSV.
  await page.getByRole('textbox', { name: 'Your name' }).fill('Kim');
  const line = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save my line as a file' }).click();
  expect(await textOf(await line)).toMatch(/^name,circuit,level,.*\nKim,.*,3,4,named,/);
  await page.getByRole('button', { name: "Put it on this machine's sheet" }).click();
  await page.getByRole('button', { name: 'Another level' }).click();
  const progress = page.locator('detent-progress');
  await expect.poll(() => progress.locator('tr', { hasText: 'Open contact' }).textContent()).toMatch(/Open contact.*\d+.*not yet held/s);
  await page.getByText('For instructors').click();
  await expect.poll(() => page.locator('detent-class tbody').textContent()).toMatch(/Kim1/);
  expect(complaints).toEqual([]);
  await context.close();
});

test('progress is kept by person: it goes out and comes in as a file, another level can be chosen, and it is cleared when asked twice', async () => {
  const { page, context, complaints } = await openBench(site, {}, 'circuit=bench-board&scene=&view=practise');
  await page.getByText('Next for you: level 1').waitFor();
  const result = (level: number, seed: number) => ({ level, circuit: 'van', seed, score: 90 });
  const file = JSON.stringify({ progress: 1, results: [result(1, 1), result(1, 2)] });
  await page
    .locator('detent-progress input[type=file]')
    .setInputFiles({ name: 'progress.json', mimeType: 'application/json', buffer: Buffer.from(file) });
  await page.getByText('Next for you: level 2').waitFor();
  await page.reload();
  await page.getByText('Next for you: level 2').waitFor();
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as a file' }).click();
  expect(JSON.parse(await textOf(await saved))).toEqual(JSON.parse(file));
  await page.getByRole('button', { name: 'Choose level 4' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Begin level 4' }).waitFor();
  await page.getByRole('button', { name: 'Clear the progress' }).click();
  await page.getByRole('button', { name: 'Clear 2 results for good' }).click();
  await page.getByText('Next for you: level 1').waitFor();
  expect(await allStored(page)).not.toContain('"score":90');
  expect(complaints).toEqual([]);
  await context.close();
});

test('an instructor hides a fault on the drawing, hands out a set as file and link, and neither they nor what is kept name it', {
  timeout: 240_000,
}, async () => {
  const options = { permissions: ['clipboard-read', 'clipboard-write'] };
  const { page, context, complaints } = await openBench(site, options, 'circuit=bench-board&scene=&view=practise');
  await page.getByText('For instructors').click();
  const pole = page.locator('detent-instructor detent-drawing [data-pole="S1.30-75"]');
  await pole.scrollIntoViewIfNeeded();
  const at = (await pole.boundingBox())!;
  await page.mouse.click(at.x + at.width / 2, at.y + at.height / 2);
  await page.screenshot({ path: 'artifacts/practise-instructor.png' });
  expect(await violations(page)).toEqual([]);
  await page.getByRole('button', { name: /^S1\.30-75 open at ON/ }).click();
  await page.getByRole('button', { name: 'Check and put into the set' }).click();
  await page.getByText('It can be solved.').waitFor({ timeout: 120_000 });
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the set as a file' }).click();
  const text = await textOf(await download);
  expect(text).toContain('sealed:');
  expect(text).not.toContain('S1.30-75 open');
  await page.getByRole('button', { name: 'Copy a link to the set' }).click();
  await page.getByText('The link is copied.').waitFor();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  expect(decodeURIComponent(link)).not.toContain('S1.30-75');
  expect(await allStored(page)).not.toContain('S1.30-75 open');
  expect(complaints).toEqual([]);
  await context.close();
  // The apprentice's own browser.
  const other = await site.browser.newContext();
  const theirs = await other.newPage();
  await theirs.goto(link);
  await theirs.getByRole('button', { name: 'Begin exercise 1 of the set' }).click();
  await theirs.getByText('Level 3, open contact.').waitFor({ timeout: 120_000 });
  const kept = await allStored(theirs);
  expect(kept).toContain('sealed');
  expect(kept).not.toContain('S1.30-75 open');
  await other.close();
});

test('what takes longer is told, and can be stopped', { timeout: 240_000 }, async () => {
  const { page, context } = await openBench(site, {}, 'circuit=truck&scene=&view=practise');
  await page.getByRole('combobox', { name: 'Level', exact: true }).selectOption('11');
  await page.getByRole('button', { name: 'Begin level 11' }).click();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await page.getByText('Stopped.').waitFor();
  expect(await page.getByRole('button', { name: 'Begin level 11' }).isEnabled()).toBe(true);
  await context.close();
});

test('the key arc of the practice bench shows the sound switch, whatever hangs on the open job', { timeout: 240_000 }, async () => {
  const { page, context } = await openBench(site, {}, `circuit=bench-board&scene=&fault=${encodeURIComponent(fault)}`);
  const missing = page.locator('detent-key-chart path.missing').filter({ visible: true });
  expect(await missing.count()).toBeGreaterThan(0);
  await page.getByRole('button', { name: 'Practise' }).first().click();
  await page.getByRole('combobox', { name: 'Level', exact: true }).selectOption('3');
  await page.getByRole('button', { name: 'Begin level 3' }).click();
  await page.getByText('Level 3, open contact.').waitFor({ timeout: 120_000 });
  const arc = page.locator('detent-practice-bench detent-key-chart');
  await arc.locator('path.closed').first().waitFor();
  expect(await arc.locator('path.missing, path.added').count()).toBe(0);
  await context.close();
});
