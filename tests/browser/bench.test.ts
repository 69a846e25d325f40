import { afterAll, beforeAll, expect, test } from 'vitest';
import { drawnNow, fault, openBench, openSite, type Site, settled, tableLine } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

/** Where the key's grip would be for an angle, on the screen. */
async function gripAt(page: import('playwright-core').Page, angle: number): Promise<{ x: number; y: number }> {
  return page.evaluate((degrees) => {
    const bench = document.querySelector('detent-shell')!.shadowRoot!.querySelector('detent-bench')!.shadowRoot!;
    const picture = bench.querySelector('detent-key-chart')!.shadowRoot!.querySelector('svg')!;
    const turn = (degrees * Math.PI) / 180;
    const at = new DOMPoint(104 * Math.sin(turn), -104 * Math.cos(turn)).matrixTransform(picture.getScreenCTM()!);
    return { x: at.x, y: at.y };
  }, angle);
}

test('fault in, key dragged to START, released: the coil lives in START and between, is dead in ON, and the engine dies', async () => {
  const { page, context, complaints } = await openBench(site);
  await page.getByRole('button', { name: 'Put in a fault' }).click();
  await page.getByRole('searchbox', { name: 'Search the faults' }).fill(fault);
  await page.keyboard.press('Enter');
  await settled(page);

  const from = await gripAt(page, 0);
  const start = await gripAt(page, 85);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(start.x, start.y, { steps: 12 });
  await settled(page);
  await expect.poll(async () => (await drawnNow(page, 'T1')).verdict).toBe('works');
  await expect.poll(async () => (await drawnNow(page, 'T1')).line, { timeout: 5000 }).toContain('engine running');
  expect((await drawnNow(page, 'T1')).line).toContain('Key held at START');

  const between = await gripAt(page, 66);
  await page.mouse.move(between.x, between.y, { steps: 6 });
  await settled(page);
  await expect.poll(async () => (await drawnNow(page, 'T1')).line).toContain('between ON and START');
  expect((await drawnNow(page, 'T1')).verdict).toBe('works');

  await page.mouse.up();
  await expect.poll(async () => (await drawnNow(page, 'T1')).line).toMatch(/Key (back )?at ON/);
  const dead = await drawnNow(page, 'T1');
  expect(dead.verdict).toBe('dead');
  expect(Math.abs(dead.volts)).toBeLessThan(0.5);
  await expect.poll(async () => (await drawnNow(page, 'T1')).line, { timeout: 5000 }).toContain('engine still');
  expect((await tableLine(page, 'ON')).find((c) => c.load === 'T1')?.word).toBe('dead');
  expect(complaints).toEqual([]);
  await context.close();
});

test('a newcomer: one press hangs the fault, START is held and let go, and the screen says what became of the engine and why', async () => {
  const { page, context } = await openBench(site);
  await page.getByRole('button', { name: `Try ${fault}` }).click();
  const start = page.getByRole('button', { name: 'START, hold' });
  await start.hover();
  await page.mouse.down();
  const said = page.locator('detent-bench .happened');
  await said.filter({ hasText: 'The engine fires and runs.' }).waitFor({ timeout: 10_000 });
  await page.mouse.up();
  await said.filter({ hasText: 'The engine dies.' }).waitFor({ timeout: 10_000 });
  expect(await page.locator('detent-bench .faults').textContent()).toMatch(/The engine dies in ON/);
  // Coil, ballast, key switch and charge lamp stand in view without scrolling.
  const view = await page.locator('detent-bench detent-drawing .viewport').boundingBox();
  for (const id of ['T1', 'R1', 'S1.30-15', 'H1']) {
    const at = await page.locator(`detent-bench detent-drawing [data-pole="${id}"]`).boundingBox();
    expect(at && view && at.x >= view.x && at.x + at.width <= view.x + view.width && at.y + at.height <= view.y + view.height, id).toBe(
      true,
    );
  }
  await context.close();
}, 60_000);

test.each(['light-van', 'saloon'])('every move of the key of the %s is solved and drawn, its time printed', async (circuit) => {
  const { page, context } = await openBench(site, {}, `circuit=${circuit}&scene=ON`);
  const { median, moves } = await page.evaluate(async () => {
    const shell = document.querySelector('detent-shell') as unknown as {
      desk: { send: (m: unknown) => void; listen: (f: () => void) => () => void; answers: { moment: unknown } };
    };
    const bench = (shell as unknown as Element).shadowRoot!.querySelector('detent-bench')!;
    const drawing = bench.shadowRoot!.querySelector('detent-drawing') as unknown as { updateComplete: Promise<unknown> };
    const times: number[] = [];
    for (let k = 0; k < 40; k++) {
      const begun = performance.now();
      const answered = new Promise<void>((done) => {
        const stop = shell.desk.listen(() => {
          if (shell.desk.answers.moment === before) return;
          stop();
          done();
        });
      });
      const before = shell.desk.answers.moment;
      shell.desk.send({ do: 'key', key: { angle: 20 + k, came: 'up', in: true }, gesture: 'test' });
      await answered;
      await (bench as unknown as { updateComplete: Promise<unknown> }).updateComplete;
      await drawing.updateComplete;
      document.body.getBoundingClientRect();
      times.push(performance.now() - begun);
    }
    return { median: times.sort((a, b) => a - b)[Math.floor(times.length / 2)]!, moves: times.length };
  });
  console.log(`one move of the key, ${circuit}, solved and drawn: ${median.toFixed(1)} ms (median of 40)`);
  expect(moves).toBe(40); // each was answered and drawn; the time (aim 16 ms) is printed here and measured by npm run bench
  await context.close();
});

test('everything with the keyboard alone: fault, key, table, undo', async () => {
  const { page, context } = await openBench(site);
  await page.getByRole('button', { name: 'Put in a fault' }).focus();
  await page.keyboard.press('Enter');
  await page.keyboard.type(fault);
  await page.keyboard.press('Enter');
  await settled(page);
  // The key has the focus that the list had.
  await page.keyboard.press('PageUp');
  await page.keyboard.press('PageUp');
  await settled(page);
  expect(await page.getByRole('slider', { name: 'Key' }).getAttribute('aria-valuetext')).toBe('ON, at the detent, 55 degrees');
  await expect.poll(async () => (await drawnNow(page, 'T1')).verdict).toBe('dead');
  for (let k = 0; k < 9; k++) await page.keyboard.press('ArrowRight');
  await settled(page);
  await expect.poll(async () => (await drawnNow(page, 'T1')).verdict).toBe('works');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await settled(page);
  expect(await page.getByRole('button', { name: 'Put in a fault' }).count()).toBe(1);
  await page.keyboard.press('Control+Shift+z');
  await settled(page);
  expect(await page.getByRole('button', { name: `Take off: ${fault}` }).count()).toBe(1);

  const cell = page.locator('detent-table [tabindex="0"]').first();
  await cell.focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await settled(page);
  await expect.poll(async () => (await drawnNow(page, 'T1')).line).toContain('Key at ACC');

  await page.locator('detent-drawing .viewport').focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('f');
  await settled(page);
  expect(await page.getByRole('group', { name: 'Faults that fit' }).getByRole('button').count()).toBeGreaterThan(0);
  expect(await page.getByRole('searchbox', { name: 'Search the faults' }).evaluate((field) => field.matches(':focus'))).toBe(true);
  await page.keyboard.press('Escape');
  await page.keyboard.press('?');
  expect(await page.getByRole('dialog', { name: 'Keys' }).isVisible()).toBe(true);
  await context.close();
});

test('a finger on a phone of 360 px: START held and released, no sideways scroll, targets of 44 px', async () => {
  const { page, context } = await openBench(
    site,
    { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 },
    `circuit=light-van&scene=ON&fault=${encodeURIComponent(fault)}`,
  );
  const sideways = () => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(await sideways()).toBe(0);
  const touch = await context.newCDPSession(page);
  const box = (await page.getByRole('button', { name: 'START, hold' }).boundingBox())!;
  const point = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [point] });
  await settled(page);
  await expect.poll(async () => (await drawnNow(page, 'T1')).line).toContain('Key held at START');
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await expect.poll(async () => (await drawnNow(page, 'T1')).line).toMatch(/Key (back )?at ON/);
  for (const name of ['Drawing', 'Table', 'Key']) {
    await page.getByRole('button', { name, exact: true }).click();
    await settled(page);
    expect(await sideways(), name).toBe(0);
    const small = await page.evaluate(() => {
      const found: string[] = [];
      const walk = (root: ParentNode) => {
        for (const e of root.querySelectorAll('*')) {
          if (e.shadowRoot) walk(e.shadowRoot);
          if (!(e instanceof HTMLButtonElement || e instanceof HTMLSelectElement) || !e.checkVisibility()) continue;
          const { width, height } = e.getBoundingClientRect();
          if (width > 0 && (width < 43.5 || height < 41.5))
            found.push(`${e.textContent?.trim()} ${Math.round(width)}x${Math.round(height)}`);
        }
      };
      walk(document);
      return found;
    });
    expect(small, name).toEqual([]);
  }
  await context.close();
});
