import { type Writable, yamlFlow, yamlText } from './written.ts';

/** Longest line that is written without a break. */
const width = 130;

/**
 * One entry of a map as lines: `F3: { kind: fuse, rating: 8 A }`, or a block of its own where that would grow too long.
 *
 * @param lead what stands before the key: its indentation
 */
export function entryLines(key: string, held: Writable, lead: string): string {
  const flat = `${lead}${yamlText(key)}: ${yamlFlow(held)}`;
  if (flat.length <= width || typeof held === 'string' || Array.isArray(held)) return flat;
  const inner = Object.entries(held).flatMap(([k, v]) => (v === undefined ? [] : [entryLines(k, v as Writable, `${lead}  `)]));
  return [`${lead}${yamlText(key)}:`, ...inner].join('\n');
}
