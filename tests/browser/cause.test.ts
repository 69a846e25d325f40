import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import type { ReadingRow } from '../../src/report/diagnosisView.ts';
import { libraryCircuit } from '../diagnose/library.ts';
import { openBench, openSite, type Site, settled } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
}, 60_000);
afterAll(() => site.close());

type Shown = {
  readonly state: string;
  readonly stage: string;
  readonly text: string;
  readonly top: readonly string[];
  readonly findings: readonly string[];
  readonly next: ReadingRow | undefined;
};
/** The whole answer to the findings that stand there now. */
async function searched(page: Page): Promise<Shown> {
  await page.waitForFunction(
    () => {
      const find = document.querySelector('detent-shell')!.shadowRoot!.querySelector('detent-find') as unknown as {
        search: (t: string) => { isNew: boolean; whole: boolean } | undefined;
        answers: { circuit: { text: string } };
      };
      const asked = find.search(find.answers.circuit.text);
      return asked?.isNew === true && asked.whole;
    },
    undefined,
    { timeout: 90_000 },
  );
  await settled(page);
  return page.evaluate(() => {
    const find = document.querySelector('detent-shell')!.shadowRoot!.querySelector('detent-find') as unknown as {
      search: (t: string) => {
        gives: {
          view: {
            verdict: { state: string; text: string };
            stage: string;
            suspects: { faults: string[] }[];
            findings: { phrase: string }[];
          };
        };
      };
      reading: () => ReadingRow | undefined;
      answers: { circuit: { text: string } };
    };
    const { view } = find.search(find.answers.circuit.text).gives;
    return {
      state: view.verdict.state,
      text: view.verdict.text,
      stage: view.stage,
      top: view.suspects[0]?.faults ?? [],
      findings: view.findings.map((f) => f.phrase),
      next: find.reading(),
    };
  });
}

async function openCause(circuit: string, options = {}): Promise<{ page: Page; complaints: string[]; close: () => Promise<void> }> {
  const { page, context, complaints } = await openBench(site, options, `circuit=${circuit}`);
  const tab = page.getByRole('button', { name: /^(Find the cause|Cause)$/ }).filter({ visible: true });
  await tab.focus();
  await page.keyboard.press('Enter');
  await page.waitForSelector('detent-find');
  return { page, complaints, close: () => context.close() };
}

/** Types findings into the phrase field, Enter after each. */
async function tell(page: Page, ...phrases: string[]): Promise<void> {
  const add = page.getByRole('button', { name: 'Add a finding' }).first();
  await add.focus();
  await page.keyboard.press('Enter');
  for (const phrase of phrases) {
    const field = page.getByLabel('In words, or a reading');
    await field.focus();
    await page.keyboard.type(phrase);
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => {
      const sheet = document
        .querySelector('detent-shell')!
        .shadowRoot!.querySelector('detent-find')!
        .shadowRoot!.querySelector('detent-seen')!;
      return (
        sheet.shadowRoot!.querySelector<HTMLInputElement>('#phrase')!.value === '' || sheet.shadowRoot!.querySelector('.wrong') !== null
      );
    });
  }
}

/** What the vehicle with this fault shows for a proposed reading, as a person would write it down. */
function truth(circuit: string, fault: string): (r: ReadingRow) => { readonly field?: string; readonly button?: string } {
  const read = libraryCircuit(circuit);
  const put = readFault(fault, read);
  const predictor = new Predictor(read);
  if (!put.ok) throw new Error(fault);
  return (row) => {
    const finding = readFinding(row.outcomes[0]!.finding, read);
    if (!finding.ok) throw new Error(row.outcomes[0]!.finding);
    const { is } = predictor.expected([put.value], finding.value[0]!)[0]!;
    switch (is.of) {
      case 'volts':
        return { field: (is.volt ?? 0).toFixed(2) };
      case 'amperes':
        return { field: is.ampere.toFixed(2) };
      case 'ohms':
        return is.ohm > 1e6 ? { button: 'It reads open, no end of ohms' } : { field: is.ohm.toFixed(2) };
      case 'load':
        return { button: is.verdict };
      case 'engine':
        return { button: is.turning || is.cranks ? (is.alive ? (is.cranks ? 'fires' : 'runs') : is.cranks ? 'cranks' : 'dies') : 'still' };
      case 'outcome':
        return { button: (is.chance.cured ?? 0) > 0.5 ? 'cured' : (is.chance.changes ?? 0) > 0.5 ? 'changes' : 'no change' };
    }
  };
}

test('from the complaint to a proof and the job sheet, by keyboard alone', async () => {
  const { page, complaints, close } = await openCause('light-van');
  const fault = 'S1.30-15 open at ON';
  const answer = truth('light-van', fault);
  await page.getByLabel('Complaint.').focus();
  await page.keyboard.type('Starts, then dies when the key springs back to ON.');
  await tell(page, 'START: engine fires', 'ON after START: engine dies', 'ON: T1 dead, A1 works');
  await page.getByRole('button', { name: 'Done' }).focus();
  await page.keyboard.press('Enter');
  let seen = await searched(page);
  const taken: string[] = [];
  for (let k = 0; k < 12 && seen.state !== 'proved'; k++) {
    expect(seen.next, seen.text).toBeDefined();
    const { field, button } = answer(seen.next!);
    taken.push(`${seen.next!.scene}: ${seen.next!.reading}`);
    if (field === undefined) {
      await page.locator('detent-next').getByRole('button', { name: button!, exact: true }).first().focus();
      await page.keyboard.press('Enter');
    } else {
      await page.locator('detent-next input').focus();
      await page.keyboard.type(field);
      await page.keyboard.press('Enter');
    }
    seen = await searched(page);
  }
  expect(seen.state, taken.join('\n')).toBe('proved');
  expect(seen.top).toEqual([fault]);
  expect(await page.locator('detent-proof [aria-current=step]').textContent()).toBe('Proved');
  await page.getByRole('button', { name: 'Replaced S1: cured' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: /^Whole table run again/ }).focus();
  await page.keyboard.press('Enter');
  await page.getByLabel('Key-off current, mA').focus();
  await page.keyboard.type('9');
  await page.keyboard.press('Enter');
  seen = await searched(page);
  expect(seen.stage).toBe('Table run again');
  await page.getByRole('button', { name: 'To the job sheet' }).focus();
  await page.keyboard.press('Enter');
  await page.waitForSelector('detent-sheet .paper', { timeout: 60_000 });
  const paper = page.locator('detent-sheet .paper');
  expect(await paper.textContent()).toContain('Cause, proved');
  expect(await paper.textContent()).toContain(fault);
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as HTML' }).focus();
  await page.keyboard.press('Enter');
  const file = await saved;
  expect(file.suggestedFilename()).toMatch(/^job-sheet-\d{4}-\d\d-\d\d\.html$/);
  const stored = readFileSync(await file.path(), 'utf8');
  expect(stored).toContain('<h1>Job sheet</h1>');
  expect(stored).toContain(fault);
  expect(stored).not.toMatch(/<script/i);
  expect(complaints).toEqual([]);
  await close();
}, 240_000);

test('the sheet of what was seen: a cell and a letter make a finding, Delete takes it back, undo brings it again', async () => {
  const { page, close } = await openCause('bench-board');
  await tell(page);
  const cell = page
    .locator('detent-seen')
    .getByRole('button', { name: /^Ignition coil.*, ON: / })
    .first();
  await cell.click();
  await page.keyboard.press('d');
  await page.waitForSelector('detent-findings li');
  expect(await page.locator('detent-findings li').allInnerTexts()).toEqual([expect.stringMatching(/ON[\s\S]*T1[\s\S]*dead/)]);
  await page.keyboard.press('Delete');
  expect(await page.locator('detent-findings li').count()).toBe(0);
  await page.getByRole('button', { name: 'Undo' }).first().click();
  expect(await page.locator('detent-findings li').count()).toBe(1);
  await close();
}, 60_000);

test('a phrase that is not understood says why and offers near words; one of them mends it', async () => {
  const { page, close } = await openCause('bench-board');
  await tell(page, 'ON: T1 ded');
  const sheet = page.locator('detent-seen');
  expect(await sheet.locator('.wrong').textContent()).toMatch(/does not say what was seen/);
  await sheet.locator('.near button', { hasText: 'T1 dead' }).first().click();
  expect(await page.getByLabel('In words, or a reading').inputValue()).toBe('ON: T1 dead');
  await page.getByLabel('In words, or a reading').press('Enter');
  await page.waitForSelector('detent-findings li');
  expect(await page.locator('detent-findings li').count()).toBe(1);
  await close();
}, 60_000);

test('a load told without its switch is noted with it, and that is said; one press takes it as it was said', async () => {
  const { page, close } = await openCause('tractor');
  await tell(page, 'START: M1 dead');
  const said = page.locator('detent-seen [role="alert"]');
  expect(await said.textContent()).toContain('taken as `START, S3 pressed: M1 dead`');
  await said.getByRole('button', { name: 'START, S3 released: M1 dead' }).click();
  await settled(page);
  expect(await said.textContent()).not.toContain('taken as');
  expect(await page.locator('detent-findings li').allTextContents()).toEqual([expect.stringContaining('S3 released')]);
  await close();
}, 60_000);

test('an outcome under the pointer or in focus shows what it would leave, on the drawing too', async () => {
  const { page, close } = await openCause('bench-board');
  await tell(page, 'START: engine fires', 'ON after START: engine dies');
  await page.getByRole('button', { name: 'Done' }).click();
  await searched(page);
  const shares = () => page.locator('detent-find detent-drawing .halo .arc').evaluateAll((arcs) => arcs.map((a) => a.getAttribute('d')));
  const before = await shares();
  expect(before.length).toBeGreaterThan(0);
  await page.locator('detent-next .outcome').first().focus();
  await settled(page);
  expect(await page.locator('detent-suspects .whatif').textContent()).toMatch(/^If it reads/);
  expect(await shares()).not.toEqual(before);
  await page.locator('detent-next .outcome').first().blur();
  await settled(page);
  expect(await shares()).toEqual(before);
  await close();
}, 90_000);

test('two readings that cannot both be are shown where they stand, and doubting one settles it', async () => {
  const { page, close } = await openCause('bench-board');
  await tell(page, 'ON: 12.4 V at S1.15', 'ON: 0.02 V at S1.15', 'ON: T1 works');
  await page.getByRole('button', { name: 'Done' }).click();
  const seen = await searched(page);
  expect(['contradiction', 'nothing-fits']).toContain(seen.state);
  const marked = page.locator('detent-findings li.clashes');
  expect(await marked.count()).toBeGreaterThan(0);
  expect(await page.getByRole('heading', { name: 'These do not stand together' }).count()).toBe(1);
  await page.getByRole('button', { name: /^Doubt it: ON: (20 mV|0.02 V) at S1.15/ }).click();
  const after = await searched(page);
  expect(['contradiction', 'nothing-fits']).not.toContain(after.state);
  expect(await page.locator('detent-find').getByText('Doubted:').count()).toBe(1);
  await close();
}, 90_000);

test('a reading is entered by placing the leads on the drawing', async () => {
  const { page, close } = await openCause('bench-board');
  await page.getByRole('button', { name: 'Add a reading' }).click();
  const entry = page.locator('detent-reading-entry');
  await entry.getByLabel('A, red lead').fill('S1.15');
  await entry.getByLabel('A, red lead').press('Tab');
  await entry.getByRole('button', { name: 'Place' }).nth(1).click();
  await page.locator('detent-find detent-drawing .viewport').scrollIntoViewIfNeeded();
  const pole = page.locator('detent-find detent-drawing [data-pole="T1"]');
  await pole.click({ position: { x: 20, y: 4 } });
  expect(await entry.getByLabel('B, black lead').inputValue()).toMatch(/^T1\./);
  expect(await page.locator('detent-find detent-drawing .lead').count()).toBe(2);
  await entry.getByLabel('Read', { exact: true }).fill('0.1');
  await entry.getByRole('button', { name: 'Note the reading' }).click();
  await page.waitForSelector('detent-findings li');
  expect(await page.locator('detent-findings li').textContent()).toMatch(/from S1\.15 to T1\./);
  await close();
}, 60_000);

test('a long search can be stopped and taken up again', async () => {
  const { page, close } = await openCause('light-van');
  await tell(page, 'ON after START: engine dies');
  await page.getByRole('button', { name: 'Stop' }).click({ timeout: 30_000 });
  expect(await page.getByText('Stopped.').count()).toBe(1);
  await page.getByRole('button', { name: 'Work it out' }).click();
  expect((await searched(page)).state).toBe('open');
  await close();
}, 120_000);

test('on a phone there are three parts, and nothing is wider than the screen', async () => {
  const { page, close } = await openCause('bench-board', { viewport: { width: 360, height: 780 }, hasTouch: true });
  await page.getByRole('button', { name: /^Findings/ }).click();
  await tell(page, 'START: engine fires', 'ON after START: engine dies');
  await page.getByRole('button', { name: 'Done' }).click();
  await searched(page);
  for (const part of [/^Next$/, /^Findings/, /^Suspects$/]) {
    await page.getByRole('button', { name: part }).first().click();
    await settled(page);
    const wide = await page.evaluate(() => {
      const main = document.querySelector('detent-shell')!.shadowRoot!.querySelector('main')!;
      return Math.max(document.documentElement.scrollWidth, main.scrollWidth);
    });
    expect(wide, String(part)).toBeLessThanOrEqual(360);
  }
  await close();
}, 90_000);
