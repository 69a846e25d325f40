import axeCore from 'axe-core';
import type { Page } from 'playwright-core';

type Violation = { readonly id: string; readonly nodes: readonly { readonly target: unknown; readonly failureSummary?: string }[] };
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** What axe finds on the page as it stands, each with its first places; empty when all is well. */
export async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(axeCore.source);
  const found = await page.evaluate(async (runOnly) => {
    const { axe } = globalThis as unknown as { axe: { run: (o: unknown) => Promise<{ violations: Violation[] }> } };
    return (await axe.run({ runOnly })).violations;
  }, rules);
  return found.map(({ id, nodes }) => {
    const places = nodes.slice(0, 3).map((n) => `${JSON.stringify(n.target)} ${n.failureSummary ?? ''}`);
    return `${id}: ${places.join(' | ')}`;
  });
}
