import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { nodeIo } from '../../src/cli/io.ts';
import type { runLine } from '../../src/cli/runLine.ts';
import { launchBrowser } from './findBrowser.ts';

test('one page with a circuit inside opens from the disk with that circuit, whatever its texts hold', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'detent-page-'));
  const browser = await launchBrowser();
  try {
    const [mine, page] = [join(folder, 'mine.yaml'), join(folder, 'mine.html')];
    writeFileSync(
      mine,
      'title: "Mine </script><b>$& Ω größer"\nparts:\n  G1: { kind: battery }\n  E1: { kind: lamp, power: 5 W }\nwires:\n  - { from: G1.+, to: E1.1 }\n  - { from: E1.2, to: G1.- }\n',
    );
    const said: string[] = [];
    // From the built command line, which knows where the built page is.
    const built = (await import('../../dist/cli/cli/runLine.js' as string)) as { runLine: typeof runLine };
    expect(await built.runLine(['export', mine, '--html', '-o', page], { ...nodeIo(), print: (t) => void said.push(t) })).toBe(0);
    const tab = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
    const complaints: string[] = [];
    tab.on('pageerror', (e) => complaints.push(e.message));
    tab.on('console', (m) => {
      if (m.type() === 'error') complaints.push(m.text());
    });
    await tab.goto(`file://${page}`);
    await tab.waitForSelector('detent-drawing svg');
    await expect
      .poll(() => tab.locator('detent-shell').evaluate((el) => el.shadowRoot!.textContent))
      .toContain('Mine </script><b>$& Ω größer');
    await tab.getByRole('button', { name: 'Circuit', exact: true }).first().click();
    await tab.waitForSelector('detent-circuit .cm-content');
    await expect.poll(() => tab.locator('.cm-content').textContent()).toContain('E1: { kind: lamp, power: 5 W }');
    expect(complaints).toEqual([]);
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true });
  }
}, 60_000);
