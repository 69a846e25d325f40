import type { Part, PartKind } from '../../circuit/part.ts';
import { readPart } from '../../circuit/readPart.ts';
import { yamlTree } from '../../circuit/yamlTree.ts';

/**
 * The parts that can be read from a text that may be broken where somebody is typing: without the line at `offset`
 * when it does not read with it. Empty when not even that is YAML.
 */
export function partsWritten(text: string, offset: number, kinds: readonly PartKind[]): ReadonlyMap<string, Part> {
  const whole = partsIn(text, kinds);
  if (whole) return whole;
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  const end = text.indexOf('\n', offset);
  return partsIn(text.slice(0, start) + (end < 0 ? '' : text.slice(end)), kinds) ?? new Map();
}

const byName = new WeakMap<readonly PartKind[], ReadonlyMap<string, PartKind>>();

function partsIn(text: string, kinds: readonly PartKind[]): ReadonlyMap<string, Part> | undefined {
  const { root } = yamlTree(text, '');
  if (root?.is !== 'map') return undefined;
  const names = byName.get(kinds) ?? new Map(kinds.map((k) => [k.kind, k]));
  byName.set(kinds, names);
  const parts = new Map<string, Part>();
  const node = root.entries.get('parts')?.node;
  for (const entry of node?.is === 'map' ? node.entries.values() : []) {
    const part = readPart(entry, names, () => undefined);
    if (part) parts.set(part.id, part);
  }
  return parts;
}
