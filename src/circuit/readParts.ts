import { checkId } from './ids.ts';
import type { Part, PartKind } from './part.ts';
import type { PlacedMap, Span, Tell } from './placed.ts';
import { readPart } from './readPart.ts';
import type { TreeMemory } from './treeMemory.ts';

/** Most parts read from one file, and most terminals of all of them. */
const partsLimit = 20_000;
const terminalsLimit = 200_000;

/** What a fault in the head of a file costs, by its key. */
const whys: Readonly<Record<string, string>> = {
  title: 'tables, drawings and job sheets take their heading from it',
  ambient: 'the resistance of every wire hangs on it',
  parts: 'without parts there is nothing to compute',
  wires: 'without wires nothing has a feed or a return',
  engine: 'whether the engine cranks and runs cannot be told',
};
export function whyOfHead(key: string | undefined): string {
  return (key !== undefined && Object.hasOwn(whys, key) ? whys[key] : undefined) ?? 'what is meant there would count for nothing';
}

/** `faulty`: ids whose part has a problem that was told; `unread`: the map as a whole could not be read. */
export type PartsRead = { readonly parts: Map<string, Part>; readonly faulty: Set<string>; readonly unread: boolean };

/** Reads the map of parts; `spans` gains where each id stands. */
export function readParts(
  root: PlacedMap,
  kinds: readonly PartKind[],
  spans: Map<string, Span>,
  tell: Tell,
  memory?: TreeMemory,
): PartsRead {
  const parts = new Map<string, Part>();
  const faulty = new Set<string>();
  const entry = root.entries.get('parts');
  if (entry?.node.is !== 'map') {
    // A list passes for a map with the keys 0, 1, 2 in the schema.
    if (entry?.node.is === 'list')
      tell(entry.keySpan, {
        code: 'wrong-shape',
        what: 'parts: a list stands where a map is wanted',
        why: whyOfHead('parts'),
        mend: ['write each part as its id, a colon, and the part: `F1: { kind: fuse, rating: 10 A }`'],
      });
    return { parts, faulty, unread: true };
  }
  const { node } = entry;
  if (node.entries.size > partsLimit) {
    tell(entry.keySpan, {
      code: 'too-many-parts',
      what: `the circuit has ${node.entries.size} parts; up to ${partsLimit} are read`,
      why: 'circuits over 20 000 parts are not computed',
      mend: ['split the circuit'],
    });
    return { parts, faulty, unread: true };
  }
  if (node.entries.size === 0 && !node.told)
    tell(entry.keySpan, {
      code: 'no-parts',
      what: 'the map of parts is empty',
      why: whyOfHead('parts'),
      mend: ['write `F1: { kind: fuse, rating: 10 A }`'],
    });
  let terminals = 0;
  const byName = new Map(kinds.map((k) => [k.kind, k]));
  for (const entry of node.entries.values()) {
    spans.set(entry.key, entry.keySpan);
    let told = false;
    const telling: Tell = (at, problem) => {
      told = true;
      tell(at, problem);
    };
    const fresh = () => (checkId(entry.key, entry.keySpan, telling) ? readPart(entry, byName, telling) : undefined);
    const part = memory ? memory.of(entry, fresh, () => !told) : fresh();
    if (part) {
      parts.set(part.id, part);
      terminals += part.kind.terminals(part).length;
    }
    if (terminals > terminalsLimit) {
      tell(entry.keySpan, {
        code: 'too-many-terminals',
        what: `with ${entry.key} the circuit has more than 200 000 terminals`,
        why: 'circuits over 200 000 terminals are not computed',
        mend: ['split the circuit, or give its connectors fewer pins'],
      });
      return { parts, faulty, unread: true };
    }
    if (!part) faulty.add(entry.key);
  }
  return { parts, faulty, unread: false };
}
