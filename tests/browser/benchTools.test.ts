import { afterAll, beforeAll, expect, test } from 'vitest';
import { drawnNow, fault, openBench, openSite, type Site, settled } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());
const withFault = `circuit=light-van&scene=ON&fault=${encodeURIComponent(fault)}`;

test('meter: leads by name, volts under load, refusal of the ohmmeter on a live circuit, clamp', async () => {
  const { page, context } = await openBench(site, {}, 'circuit=light-van&scene=ON');
  await page.getByRole('button', { name: 'Use a meter' }).click();
  const type = async (name: string, place: string) => {
    await page.getByRole('combobox', { name }).fill(place);
    await page.keyboard.press('Tab');
    await settled(page);
  };
  await type('A, red lead', 'S1.15');
  await type('B, black lead', 'ground');
  const display = page.getByRole('status', { name: 'Reading' });
  await expect.poll(() => display.textContent()).toMatch(/12\.\d\d\s*V DC/);
  await page.getByRole('button', { name: 'Ohms', exact: true }).click();
  await expect.poll(() => page.locator('detent-meter .note').textContent()).toContain('live circuit');
  await page.getByRole('button', { name: 'Test lamp' }).click();
  await expect.poll(() => display.textContent()).toContain('bright');
  await page.getByRole('button', { name: 'Clamp' }).click();
  await type('A, wire, fuse or terminal', 'T1');
  await expect.poll(() => display.textContent()).toMatch(/A DC/);
  await context.close();
});

test('a lead is dragged from one terminal to another on the drawing', async () => {
  const { page, context } = await openBench(site, {}, 'circuit=bench-board&scene=');
  const terminals = await page.evaluate(() => {
    const shell = document.querySelector('detent-shell') as unknown as {
      desk: {
        send: (m: unknown) => void;
        answers: { circuit: { circuit: { layout: { poles: { top: string; x: number; box: { y: number } }[] } } } };
      };
    };
    const poles = shell.desk.answers.circuit.circuit.layout.poles.filter((p) => p.x < 800 && p.box.y < 330);
    shell.desk.send({ do: 'meter', meter: { open: true, red: poles[0]!.top, black: 'ground' } });
    return { from: poles[0]!, to: poles.at(-1)! };
  });
  await settled(page);
  const sheet = (await page.locator('detent-drawing svg').first().boundingBox())!;
  const pill = (await page.locator('detent-drawing [data-lead=red] rect').boundingBox())!;
  await page.mouse.move(pill.x + 20, pill.y + 15);
  await page.mouse.down();
  await page.mouse.move(sheet.x + terminals.to.x, sheet.y + terminals.to.box.y, { steps: 8 });
  await page.mouse.up();
  await settled(page);
  expect(await page.getByRole('combobox', { name: 'A, red lead' }).inputValue()).toBe(terminals.to.top);
  await context.close();
});

test('a part clicked in the drawing lists its faults; the slider of a bad contact moves what is drawn', async () => {
  const { page, context } = await openBench(site, {}, 'circuit=light-van&scene=ON');
  await page.getByRole('combobox', { name: 'Find a part in the drawing' }).fill('T1');
  await page.keyboard.press('Enter');
  await settled(page);
  expect(await page.getByRole('heading', { name: /T1/ }).count()).toBe(1);
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  await page.getByRole('button', { name: 'Put in a fault' }).click();
  await page.getByRole('searchbox', { name: 'Search the faults' }).fill('S1.30-15 0.1 Ω');
  await page.keyboard.press('Enter');
  await settled(page);
  await expect.poll(async () => (await drawnNow(page, 'T1')).volts).toBeGreaterThan(5);
  const slider = page.getByRole('slider', { name: /How bad/ });
  await slider.focus();
  await page.keyboard.press('End');
  await settled(page);
  await expect.poll(async () => (await drawnNow(page, 'T1')).volts).toBeLessThan(1);
  await context.close();
});

test('only what belongs to one load; two scenes side by side; the drawing in words', async () => {
  const { page, context } = await openBench(site, {}, withFault);
  const poles = () =>
    page.evaluate(() => {
      const bench = document.querySelector('detent-shell')!.shadowRoot!.querySelector('detent-bench')!;
      return (bench.shadowRoot!.querySelector('detent-drawing') as unknown as { layout: { poles: unknown[] } }).layout.poles.length;
    });
  await page.getByRole('button', { name: /^All \d+ tracks$/ }).click();
  const all = await poles();
  await page.getByRole('combobox', { name: 'Find a part in the drawing' }).fill('T1');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Only T1' }).click();
  await expect.poll(poles).toBeLessThan(all / 3);
  await page.getByRole('button', { name: 'Only T1' }).click();
  await page.getByRole('button', { name: 'Compare from here' }).click();
  await page.getByRole('button', { name: 'LOCK', exact: true }).click();
  await settled(page);
  expect(await page.locator('.pair detent-drawing').count()).toBe(2);
  await expect.poll(() => page.locator('.differing').textContent()).toContain('differ');
  await page.getByRole('button', { name: 'End the comparison' }).click();
  await page.getByText('The drawing in words').click();
  await expect.poll(() => page.locator('.words li').count()).toBeGreaterThan(10);
  await context.close();
});

test('folding by function draws only what the chosen functions need, with the table under its tracks', async () => {
  const { page, context, complaints } = await openBench(site, {}, 'circuit=modern-saloon&scene=ON');
  const tracks = () =>
    page
      .locator('detent-bench detent-drawing')
      .evaluate((drawing) => (drawing as unknown as { layout: { tracks: { load: string }[] } }).layout.tracks.map((t) => t.load));
  const columns = () => page.locator('detent-table thead th .number').allTextContents();
  await page.locator('.folds summary').click();
  await page.getByRole('checkbox', { name: /^Lamps/ }).check();
  await expect.poll(async () => (await tracks()).includes('E1')).toBe(true);
  expect(await tracks()).not.toContain('M1');
  await page.getByRole('checkbox', { name: /^Starting/ }).check();
  await expect.poll(async () => (await tracks()).includes('M1')).toBe(true);
  expect(await tracks()).toContain('E1');
  expect((await columns()).length).toBe((await tracks()).length);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: /^All \d+ tracks$/ }).click();
  await expect.poll(async () => (await tracks()).length).toBeGreaterThan(10);
  expect(complaints).toEqual([]);
  await context.close();
});

test('play: a story becomes a strip chart; scrubbed into START the key stands there; recorded by hand it becomes a story', async () => {
  const { page, context } = await openBench(site, {}, withFault);
  await page.getByRole('button', { name: 'Play over time' }).click();
  await page.getByRole('img', { name: /Strip chart/ }).waitFor();
  expect(await page.getByRole('list', { name: 'Events' }).textContent()).toContain('engine dies');
  const time = page.getByRole('slider', { name: 'Time in the story' });
  await time.fill('2.5');
  await settled(page);
  await expect.poll(async () => (await drawnNow(page, 'T1')).line).toContain('held at START');
  await page.getByRole('button', { name: 'Record my hand' }).click();
  await page.getByRole('button', { name: 'ACC', exact: true }).click();
  await page.waitForTimeout(250);
  await page.getByRole('button', { name: 'ON', exact: true }).click();
  await page.waitForTimeout(250);
  await page.getByRole('button', { name: /Recording/ }).click();
  await expect.poll(() => page.getByRole('textbox', { name: 'Story' }).inputValue()).toMatch(/ACC 0\.\d+ s, ON 0\.\d+ s$/);
  await context.close();
});

test('the way of one load on a narrow screen names the volts between the parts', async () => {
  const { page, context } = await openBench(site, { viewport: { width: 360, height: 780 }, hasTouch: true }, withFault);
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  await page.locator('detent-table tr', { hasText: 'Ignition coil' }).locator('td.bad').first().click();
  await page.getByRole('button', { name: 'Drawing', exact: true }).click();
  const way = page.getByRole('list', { name: 'Way of the current through T1' });
  await expect.poll(() => way.textContent()).toContain('S1 30–15');
  expect(await way.textContent()).toContain('open at ON');
  await page.getByRole('button', { name: 'Whole drawing' }).click();
  expect(await page.locator('detent-drawing').count()).toBe(1);
  await context.close();
});
