import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const css = readFileSync('web/page.css', 'utf8');
const tokens = new Map(
  [...css.matchAll(/--(\w+): light-dark\((#\w{6}), (#\w{6})\)/g)].map(
    ([, name, light, dark]) => [name!, { light: light!, dark: dark! }] as const,
  ),
);

/** Relative luminance and contrast ratio. Source: WCAG 2.2, definitions of relative luminance and contrast ratio. */
function luminance(colour: string): number {
  const parts = [1, 3, 5]
    .map((k) => Number.parseInt(colour.slice(k, k + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * parts[0]! + 0.7152 * parts[1]! + 0.0722 * parts[2]!;
}
function contrast(a: string, b: string): number {
  const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

/** Text asks 4.5, graphics and controls 3 (WCAG 2.2, 1.4.3 and 1.4.11). */
const pairs: readonly (readonly [string, string, number])[] = [
  ...(['paper', 'sheet', 'band', 'handtint', 'tagtint', 'cautiontint'] as const).map((ground) => ['ink', ground, 4.5] as const),
  ...(['paper', 'sheet', 'band'] as const).map((ground) => ['ink2', ground, 4.5] as const),
  ...(['paper', 'sheet', 'tagtint'] as const).map((ground) => ['tag', ground, 4.5] as const),
  ...(['paper', 'sheet', 'band', 'handtint'] as const).map((ground) => ['hand', ground, 4.5] as const),
  ['onhand', 'hand', 4.5],
  ['caution', 'cautiontint', 4.5],
  ['sheet', 'ink', 4.5],
  ...(['paper', 'sheet'] as const).map((ground) => ['edge', ground, 3] as const),
  ['wireedge', 'sheet', 3],
  ['wireedge', 'band', 3],
  ['halo', 'sheet', 3],
];

test.each(pairs)('%s on %s has at least %d : 1 in light and dark', (front, ground, least) => {
  for (const theme of ['light', 'dark'] as const)
    expect(contrast(tokens.get(front)![theme], tokens.get(ground)![theme]), theme).toBeGreaterThanOrEqual(least);
});
