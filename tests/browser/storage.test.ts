import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { go, openBench, openSite, ready, type Site, settled } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

async function typeVehicle(page: Page, text: string): Promise<void> {
  await page.getByRole('button', { name: /^Job: / }).click();
  await page.getByRole('textbox', { name: 'Vehicle' }).fill(text);
  await page.getByRole('button', { name: 'Close', exact: true }).click();
}

/** What a button hands out as a file. */
async function fileFrom(page: Page, press: () => Promise<void>): Promise<string> {
  const coming = page.waitForEvent('download');
  await press();
  return readFileSync((await (await coming).path())!, 'utf8');
}

const keptRecords = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<{ id: string; job?: { notes?: { vehicle?: string } } }[]>((done) => {
        const asked = indexedDB.open('detent');
        asked.onsuccess = () => {
          const all = asked.result.transaction('jobs').objectStore('jobs').getAll();
          all.onsuccess = () => {
            asked.result.close();
            done(all.result);
          };
        };
      }),
  );

test('a full disk is said, the job can be saved as a file, and is kept again once there is room', async () => {
  const { page, context } = await openBench(site);
  const session = await context.newCDPSession(page);
  const origin = new URL(site.url).origin;
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
  await typeVehicle(page, 'white van');
  const alert = page.getByRole('alert', { name: 'Not kept' });
  await alert.waitFor();
  expect(await alert.textContent()).toContain('there is no room left');
  expect(await fileFrom(page, () => alert.getByRole('button', { name: 'Save job file' }).click())).toContain('vehicle: white van');
  await session.send('Storage.overrideQuotaForOrigin', { origin });
  await alert.getByRole('button', { name: 'Try again' }).click();
  await alert.waitFor({ state: 'detached' });
  expect((await keptRecords(page)).map((r) => r.job?.notes?.vehicle)).toContain('white van');
  await context.close();
});

test('where the browser forbids all storage the page works, and says that nothing is kept', async () => {
  const context = await site.browser.newContext({ viewport: { width: 1440, height: 900 } });
  await context.addInitScript(() => {
    const refuse = () => {
      throw new DOMException('denied', 'SecurityError');
    };
    Object.defineProperty(globalThis, 'sessionStorage', { get: refuse });
    Object.defineProperty(globalThis, 'localStorage', { get: refuse });
    IDBFactory.prototype.open = refuse;
  });
  const page = await context.newPage();
  const complaints = await go(site, page);
  const alert = page.getByRole('alert', { name: 'Not kept' });
  expect(await alert.textContent()).toContain('does not let the page keep anything');
  await page.getByRole('button', { name: 'ON', exact: true }).click();
  await settled(page);
  await typeVehicle(page, 'red van');
  expect(await fileFrom(page, () => alert.getByRole('button', { name: 'Save job file' }).click())).toContain('vehicle: red van');
  await alert.getByRole('button', { name: 'Go on without' }).click();
  await alert.waitFor({ state: 'detached' });
  expect(complaints).toEqual([]);
  await context.close();
});

test('records of a newer program and damaged ones are said, handed out, and left as they are', async () => {
  const { page, context } = await openBench(site);
  await typeVehicle(page, 'sound one');
  await settled(page);
  const strange = [
    { id: 'newer', form: 99, revision: 1, saved: 1, job: { id: 'newer', wholly: 'different' } },
    { id: 'damaged', revision: 2, saved: 2, job: { id: 'damaged', day: 3, circuit: null } },
  ];
  await page.evaluate(
    (records) =>
      new Promise<void>((done) => {
        const asked = indexedDB.open('detent');
        asked.onsuccess = () => {
          const task = asked.result.transaction('jobs', 'readwrite');
          for (const record of records) task.objectStore('jobs').put(record);
          task.oncomplete = () => {
            asked.result.close();
            done();
          };
        };
      }),
    strange,
  );
  await page.reload();
  const alert = page.getByRole('alert', { name: 'Kept jobs that cannot be shown' });
  await alert.waitFor();
  const file = await fileFrom(page, () => alert.getByRole('button', { name: 'Save as a file' }).click());
  expect(file).toContain('"wholly": "different"');
  expect(file).toContain('"damaged"');
  expect(await page.getByRole('button', { name: /^Job: sound one/ }).count()).toBe(1);
  expect((await keptRecords(page)).filter((r) => r.id === 'newer' || r.id === 'damaged')).toEqual(
    expect.arrayContaining(strange.map((record) => expect.objectContaining(record))),
  );
  await context.close();
});

test('a shelf of a newer program is not touched, and that is said', async () => {
  const { page, context } = await openBench(site);
  await page.goto('about:blank');
  const other = await context.newPage();
  await other.goto(`${site.url}assets/`, { waitUntil: 'commit' }).catch(() => undefined);
  await other.evaluate(
    () =>
      new Promise<void>((done) => {
        const asked = indexedDB.open('detent', 9);
        asked.onsuccess = () => {
          asked.result.close();
          done();
        };
      }),
  );
  await go(site, page);
  expect(await page.getByRole('alert', { name: 'Not kept' }).textContent()).toContain('kept by a newer Detent');
  await context.close();
});

test('what was noted while another tab saved becomes a job of its own, and a note that was saved is cleared away', async () => {
  const { page, context } = await openBench(site);
  await typeVehicle(page, 'as saved');
  await page.waitForTimeout(400);
  await page.evaluate(
    () =>
      new Promise<void>((done) => {
        const asked = indexedDB.open('detent');
        asked.onsuccess = () => {
          const all = asked.result.transaction('jobs').objectStore('jobs').getAll();
          all.onsuccess = () => {
            const [kept] = all.result;
            const note = (desk: string, step: number, based: number, vehicle: string) => ({
              ...{ id: kept.id, desk, step, based, saved: Date.now(), form: 1 },
              job: { ...kept.job, notes: { ...kept.job.notes, vehicle } },
            });
            const ahead = indexedDB.open('detent-ahead');
            ahead.onsuccess = () => {
              const task = ahead.result.transaction('ahead', 'readwrite');
              task.objectStore('ahead').put(note('dead', 4, kept.revision - 1, 'noted on what was before'));
              task.objectStore('ahead').put(note(kept.desk, 1, kept.revision - 1, 'noted and saved since'));
              task.oncomplete = () => {
                asked.result.close();
                ahead.result.close();
                done();
              };
            };
          };
        };
      }),
  );
  await page.reload();
  await ready(page);
  const vehicles = async () => (await keptRecords(page)).map((r) => r.job?.notes?.vehicle).sort();
  expect(await vehicles()).toEqual(['as saved', 'noted on what was before']);
  expect(await page.getByRole('button', { name: /^Job: as saved/ }).count()).toBe(1);
  // Once more: nothing is left that could come back.
  await page.reload();
  await ready(page);
  expect(await vehicles()).toEqual(['as saved', 'noted on what was before']);
  await context.close();
});
