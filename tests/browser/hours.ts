import type { CDPSession, Page } from 'playwright-core';

/** What the page took after one hour of use: script memory once rubbish is collected, elements, and how a drag of the key ran. */
export type Hour = {
  readonly hour: number;
  readonly heap_MB: number;
  readonly elements: number;
  readonly frame_ms: number;
  readonly slow_ms: number;
};

/** The desk as a test speaks to it. */
type Desk = {
  send: (message: unknown) => void;
  undo: () => void;
  redo: () => void;
  beginJob: (choice: unknown) => void;
  answers: { table?: unknown };
  job: { scene?: { key?: { angle: number } } };
};

/**
 * An hour at the bench, compressed: the key is dragged, faults are hung on and taken off, switches thrown, steps undone, every view
 * looked at, a job begun with its findings.
 *
 * @param drags how many of each in this hour
 */
export async function hourOfUse(page: Page, session: CDPSession, hour: number, drags: number): Promise<Hour> {
  const frames: number[] = [];
  const circuit = ['light-van', 'motorcycle'][hour % 2]!;
  await page.evaluate((name) => theDesk().beginJob({ from: 'library', name }), circuit);
  await answered(page);
  for (let k = 0; k < drags; k++) {
    frames.push(...(await page.evaluate(dragged, k)));
    await page.evaluate(handled, k);
  }
  for (const view of ['cause', 'drain', 'practise', 'sheet', 'circuit', 'bench']) {
    await page.evaluate((to) => theDesk().send({ do: 'view', view: to }), view);
    await page.waitForTimeout(150);
  }
  await answered(page);
  // Always the same picture to measure: another circuit has other elements.
  await page.evaluate(() => theDesk().beginJob({ from: 'library', name: 'light-van' }));
  await answered(page);
  await page.waitForTimeout(300);
  for (let k = 0; k < 3; k++) await session.send('HeapProfiler.collectGarbage');
  const { metrics } = await session.send('Performance.getMetrics');
  const metric = (name: string) => metrics.find((m) => m.name === name)!.value;
  const sorted = [...frames].sort((a, b) => a - b);
  return {
    hour,
    heap_MB: metric('JSHeapUsedSize') / 2 ** 20,
    elements: metric('Nodes'),
    frame_ms: sorted[Math.floor(sorted.length / 2)]!,
    slow_ms: sorted[Math.floor(sorted.length * 0.95)]!,
  };
}

declare function theDesk(): Desk;

/** A drag over the whole travel and back, one step a frame; milliseconds of each frame. */
async function dragged(k: number): Promise<number[]> {
  const took: number[] = [];
  let last = performance.now();
  for (let step = 0; step < 24; step++) {
    const angle = step < 12 ? step * 7 : (24 - step) * 7;
    theDesk().send({ do: 'key', key: { angle, came: step < 12 ? 'up' : 'back', in: true }, gesture: `drag${k}` });
    await new Promise((done) => requestAnimationFrame(done));
    const now = performance.now();
    took.push(now - last);
    last = now;
  }
  return took;
}

/** What a hand does between two drags. */
async function handled(k: number): Promise<void> {
  const desk = theDesk();
  const rest = () => new Promise((done) => setTimeout(done, 20));
  desk.send({ do: 'faults', faults: [['S1.30-15 open at ON', 'F3 blown', 'S1.30-15 0.5 Ω'][k % 3]] });
  await rest();
  desk.send({ do: 'hand', part: 'S2', setting: k % 2 === 0 ? 'on' : undefined });
  desk.send({ do: 'notes', notes: { vehicle: `van ${k}`, findings: [`ON: T1 ${k % 2 === 0 ? 'dead' : 'works'}`] } });
  await rest();
  for (let n = 0; n < 4; n++) desk.undo();
  for (let n = 0; n < 2; n++) desk.redo();
  desk.send({ do: 'look', look: { show: (['healthy', 'faulty', 'difference'] as const)[k % 3] } });
  desk.send({ do: 'faults', faults: [] });
  await rest();
}

/** Lets the page's desk be spoken to from the functions above. */
export async function reachDesk(page: Page): Promise<void> {
  await page.evaluate(() => {
    Object.assign(globalThis, { theDesk: () => (document.querySelector('detent-shell') as unknown as { desk: unknown }).desk });
  });
}

/** Asked through the desk: an element that a test waits for is held by the browser's tools, and could never be freed. */
async function answered(page: Page): Promise<void> {
  await page.waitForTimeout(50);
  while (!(await page.evaluate(() => theDesk().answers.table !== undefined))) await page.waitForTimeout(50);
}
