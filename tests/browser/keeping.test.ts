import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { drawnNow, fault, go, openBench, openSite, ready, type Site, settled } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

const tagOff = `Take off: ${fault}`;

test('[P8] works offline after the first load, and asks nobody but its own origin', async () => {
  const { page, context, complaints } = await openBench(site);
  const strangers: string[] = [];
  page.on('request', (r) => {
    if (!r.url().startsWith(site.url) && !r.url().startsWith('data:') && !r.url().startsWith('blob:')) strangers.push(r.url());
  });
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.waitForTimeout(300);
  await context.setOffline(true);
  await page.reload();
  await ready(page);
  expect(await page.getByRole('slider', { name: 'Key' }).isVisible()).toBe(true);
  expect(await page.evaluate(() => document.fonts.check('600 16px "Barlow Semi Condensed"'))).toBe(true);
  expect(strangers).toEqual([]);
  expect(complaints).toEqual([]);
  await context.close();
});

test('[P10] a killed tab comes back with everything since the last keystroke', async () => {
  const { page, context } = await openBench(site, {}, `circuit=light-van&scene=ACC&fault=${encodeURIComponent(fault)}`);
  await page.getByRole('button', { name: /^Job: / }).click();
  await page.getByRole('textbox', { name: 'Vehicle' }).pressSequentially('white van, no. 12');
  await page.waitForTimeout(60);
  await page.close({ runBeforeUnload: false });
  const again = await context.newPage();
  await go(site, again);
  expect(await again.getByRole('button', { name: /^Job: white van, no\. 12/ }).count()).toBe(1);
  expect(await again.getByRole('button', { name: tagOff }).count()).toBe(1);
  expect((await drawnNow(again, 'T1')).line).toContain('Key at ACC');
  await context.close();
});

test('[P10] two tabs follow each other and never overwrite each other silently', async () => {
  const { page, context } = await openBench(site);
  await page.getByRole('button', { name: 'ACC', exact: true }).click();
  await settled(page);
  const other = await context.newPage();
  await go(site, other);
  expect((await drawnNow(other, 'T1')).line).toContain('Key at ACC');
  await other.getByRole('button', { name: 'ON', exact: true }).click();
  await expect.poll(async () => (await drawnNow(page, 'T1')).line).toContain('Key at ON');

  // A tab that missed the word of the other one: its revision is behind.
  await page.evaluate(async () => {
    const opened = await new Promise<IDBDatabase>((done) => {
      const asked = indexedDB.open('detent');
      asked.onsuccess = () => done(asked.result);
    });
    await new Promise<void>((done) => {
      const task = opened.transaction('jobs', 'readwrite');
      const all = task.objectStore('jobs').getAll();
      all.onsuccess = () => {
        const kept = all.result[0];
        task
          .objectStore('jobs')
          .put({ ...kept, revision: kept.revision + 5, job: { ...kept.job, notes: { ...kept.job.notes, vehicle: 'theirs' } } });
      };
      task.oncomplete = () => done();
    });
  });
  await page.getByRole('button', { name: 'LOCK', exact: true }).click();
  const ask = page.getByRole('alertdialog');
  await ask.waitFor();
  await ask.getByRole('button', { name: 'Keep mine as another job' }).click();
  await page.waitForTimeout(200);
  const kept = await page.evaluate(async () => {
    const shell = document.querySelector('detent-shell') as unknown as {
      desk: { jobs: () => Promise<{ job: { notes: { vehicle: string } } }[]> };
    };
    return (await shell.desk.jobs()).map((k) => k.job.notes.vehicle).sort();
  });
  expect(kept).toEqual(['', 'theirs']);
  await context.close();
});

test('a link carries circuit, scene and faults', async () => {
  const { page, context } = await openBench(site, {}, `circuit=light-van&scene=ON&fault=${encodeURIComponent(fault)}`);
  const link = await page.evaluate(() => location.hash);
  expect(new URLSearchParams(link.slice(1)).get('circuit')).toBe('light-van');
  expect(new URLSearchParams(link.slice(1)).get('scene')).toContain('ON');
  expect(new URLSearchParams(link.slice(1)).getAll('fault')).toEqual([fault]);
  await context.close();
});

test('the single file opens by double click and computes', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'detent-'));
  try {
    const context = await site.browser.newContext({ viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    const complaints: string[] = [];
    page.on('pageerror', (e) => complaints.push(e.message));
    page.on('console', (m) => {
      if (m.type() === 'error') complaints.push(m.text());
    });
    await page.goto(`file://${resolve('dist/single/index.html')}`);
    await ready(page);
    await page.getByRole('button', { name: 'ON', exact: true }).click();
    await expect.poll(async () => (await drawnNow(page, 'T1')).verdict).toBe('works');
    expect(complaints).toEqual([]);
    await context.close();
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('[P9] the policy allows nothing inline and nothing from elsewhere; text of a file never becomes markup', async () => {
  const html = readFileSync('dist/web/index.html', 'utf8');
  const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)![1]!;
  expect(policy).toContain("default-src 'none'");
  expect(policy).not.toContain('unsafe');
  const { page, context, complaints } = await openBench(site);
  const ran = await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'globalThis.slipped = true';
    document.head.append(script);
    return (globalThis as { slipped?: boolean }).slipped ?? false;
  });
  expect(ran).toBe(false);
  complaints.length = 0;

  await page.evaluate(() => {
    const shell = document.querySelector('detent-shell') as unknown as { desk: { beginJob: (c: unknown) => void } };
    const text =
      'title: "<img src=x onerror=alert(1)>"\nparts:\n  G1: { kind: supply, voltage: 12 V }\n  H1: { kind: lamp, power: 5 W, name: "<b>Panel</b>" }\nwires:\n  - { from: G1.+, to: H1.1 }\n  - { from: H1.2, to: G1.- }\n  - { from: G1.-, to: ground }\n';
    shell.desk.beginJob({ from: 'file', name: 'evil.yaml', text });
  });
  await expect.poll(() => page.getByRole('button', { name: /^Job: / }).textContent()).toContain('<img src=x onerror=alert(1)>');
  await ready(page);
  expect(await page.locator('img').count()).toBe(0);
  expect(await page.locator('detent-table').getByText('<b>Panel</b>').count()).toBe(1);
  expect(complaints).toEqual([]);
  await context.close();
});

test('a broken circuit file shows its problems beside its text, never a blank page', async () => {
  const { page, context } = await openBench(site);
  await page.evaluate(() => {
    const shell = document.querySelector('detent-shell') as unknown as { desk: { beginJob: (c: unknown) => void } };
    shell.desk.beginJob({
      from: 'file',
      name: 'broken.yaml',
      text: 'title: Broken\nparts:\n  G1: { kind: suply, voltage: 12 V }\nwires: []\n',
    });
  });
  await page.locator('.broken .problems li').first().waitFor();
  expect(await page.locator('.broken .problems').textContent()).toContain('broken.yaml:3:');
  expect(await page.locator('.broken pre .marked').textContent()).toContain('suply');
  await context.close();
});
