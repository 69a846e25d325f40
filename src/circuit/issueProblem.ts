import type * as v from 'valibot';
import { saidIn } from './issueText.ts';
import { nearNames } from './nearNames.ts';
import { type Placed, type PlacedMap, type Span, spanAt, type Tell } from './placed.ts';

/** A piece of the file that a schema looked at. */
export type Whole = {
  readonly root: Placed;
  /** Names it in sentences: `H1`, `wire W7`; '' for the file itself. */
  readonly about: string;
  /** What a fault in it costs. The first key of the path tells which. */
  readonly why: (key: string | undefined) => string;
  /** Where to look up what belongs here: `` `detent parts fuse` lists its keys ``. */
  readonly hint?: string;
};

type Told = { readonly code: string; readonly what: string; readonly mend: readonly string[] };

/**
 * Tells each issue of a schema at its place. `what` gets its subject from the path (`` voltage of G1: `55 Ah` is a
 * capacity, not a voltage ``). One cause, one problem: a comma in a flow map, which splits `1,5 mm²` into a value and a
 * key, is told once; a misspelt key is not also missing; a list in place of a map does not also miss every key of it;
 * and nothing is said of what was refused before.
 */
export function tellIssues(issues: readonly v.BaseIssue<unknown>[], whole: Whole, tell: Tell): void {
  const faults = issues.map((issue) => ({ path: (issue.path ?? []).map((item) => item.key as PropertyKey), told: wordsOf(issue) }));
  const misspelt = faults.filter((f) => f.told.code === 'unknown-key');
  const shapes = new Set<string>();
  for (const { path, told } of faults) {
    const isOfKey = told.code === 'unknown-key' || told.code === 'missing-key';
    const owner = isOfKey ? path.slice(0, -1) : path;
    const place = nodeAt(whole.root, owner);
    const last = String(path.at(-1) ?? '');
    const why = whole.why(path[0] === undefined ? undefined : String(path[0]));
    if (place !== undefined && place.is !== 'list' && place.told && told.code !== 'unknown-key') continue;
    // A key that is looked for in a list: the list is told of itself.
    if (!isOfKey && !/^\d+$/.test(last) && nodeAt(whole.root, path.slice(0, -1))?.is === 'list') continue;
    if (isOfKey && place?.is !== 'map') {
      const at = owner.join('\u0000');
      if (shapes.has(at)) continue;
      shapes.add(at);
      tell(spanAt(whole.root, owner), {
        code: 'wrong-shape',
        what: `${subject(owner, whole.about)}: ${place?.is === 'list' ? 'a list' : 'something else'} stands where a map is wanted`,
        why,
        mend: ['a map is written `{ key: …, key: … }`'],
      });
      continue;
    }
    const isMisspelt = (path: readonly PropertyKey[]) =>
      path.slice(0, -1).join() === owner.join() && nearNames(String(path.at(-1)), [last]).length > 0;
    if (told.code === 'missing-key' && misspelt.some((f) => isMisspelt(f.path))) continue;
    const split = place?.is === 'map' && told.code === 'unknown-key' ? splitByComma(place, last) : undefined;
    if (split) {
      tell(split.span, {
        code: 'decimal-comma',
        what: `${subject([...owner, split.key], whole.about)}: the comma in \`${split.text}\` ends the entry`,
        why: whole.why(String(owner[0] ?? split.key)),
        mend: [`write \`${split.text.replace(',', '.')}\``],
      });
      continue;
    }
    if (place?.is === 'text' && isSplit(whole.root, path)) continue;
    const about = subject(owner, whole.about);
    const mend =
      told.mend.length > 0
        ? told.mend
        : [told.code === 'missing-key' ? `add \`${last}: …\`` : 'compare it with the other parts of this file'];
    tell(spanAt(whole.root, path, told.code === 'unknown-key'), {
      code: told.code,
      what: about === '' ? told.what : `${about}: ${told.what}`,
      why: told.code === 'unknown-key' ? 'what stands there would count for nothing' : why,
      mend: isOfKey && whole.hint !== undefined ? [...mend, whole.hint] : mend,
    });
  }
}

/** `voltage of G1`, `at of ON in positions of S1`. */
function subject(path: readonly PropertyKey[], about: string): string {
  if (path.length === 0) return about;
  const names = path.map((step) => (/^\d+$/.test(String(step)) ? `no. ${Number(step) + 1}` : String(step))).reverse();
  const [first = '', ...rest] = names;
  const inside = rest.length === 0 ? first : path.length === 2 ? `${first} in ${rest[0]}` : `${first} of ${rest.join(' in ')}`;
  return about === '' ? inside : `${inside} of ${about}`;
}

export function nodeAt(root: Placed, path: readonly PropertyKey[]): Placed | undefined {
  let node: Placed | undefined = root;
  for (const step of path) {
    if (node?.is === 'map') node = node.entries.get(String(step))?.node;
    else if (node?.is === 'list') node = node.items[Number(step)];
    else return undefined;
  }
  return node;
}

/** The entry before `5 mm²` in `{ area: 1,5 mm² }`: a bare whole number, and after it a key without a value that goes on with digits. */
function splitByComma(map: PlacedMap, key: string): { readonly key: string; readonly text: string; readonly span: Span } | undefined {
  if (!/^\d+(\s*[^\d\s].*)?$/.test(key)) return undefined;
  const entries = [...map.entries.values()];
  const k = entries.findIndex((e) => e.key === key);
  const [before, after] = [entries[k - 1], entries[k]];
  if (before?.node.is !== 'text' || after?.node.is !== 'text' || after.node.text !== '') return undefined;
  if (!/^[+-]?\d+$/.test(before.node.text)) return undefined;
  return { key: before.key, text: `${before.node.text},${key}`, span: { start: before.node.span.start, end: after.keySpan.end } };
}

function isSplit(root: Placed, path: readonly PropertyKey[]): boolean {
  const map = nodeAt(root, path.slice(0, -1));
  if (map?.is !== 'map') return false;
  const entries = [...map.entries.values()];
  const next = entries[entries.findIndex((e) => e.key === String(path.at(-1))) + 1];
  return next !== undefined && splitByComma(map, next.key) !== undefined;
}

/** What our own schemas say, or words for the library's own issues, which speak of types. */
function wordsOf(issue: v.BaseIssue<unknown>): Told {
  const said = saidIn(issue.message);
  if (!issue.message.startsWith('Invalid ')) return said;
  const wanted = issue.expected?.replaceAll('"', '`') ?? '';
  const isObject = issue.type.endsWith('object');
  if (isObject && issue.expected === 'never')
    return { code: 'unknown-key', what: `\`${String(issue.input)}\` is no key here`, mend: ['leave it out'] };
  if (isObject && issue.expected?.startsWith('"')) return { code: 'missing-key', what: `${wanted} is missing`, mend: [] };
  if (issue.expected === 'Object')
    return { code: 'wrong-shape', what: 'a map is wanted here', mend: ['a map is written `{ key: …, key: … }`'] };
  if (issue.expected === 'Array') return { code: 'wrong-shape', what: 'a list is wanted here', mend: ['a list is written `[ …, … ]`'] };
  if (issue.expected === 'string')
    return { code: 'wrong-shape', what: 'one text is wanted here', mend: ['write one text without brackets'] };
  const read = typeof issue.input === 'string' ? `\`${issue.input}\` does not fit here` : 'what stands here does not fit';
  return { code: 'wrong-form', what: read, mend: wanted === '' ? [] : [`wanted: ${wanted.replaceAll(' | ', ', ')}`] };
}
