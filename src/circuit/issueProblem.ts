import type * as v from 'valibot';
import { saidIn } from './issueText.ts';
import { type Placed, type PlacedMap, spanAt, type Tell } from './placed.ts';

/** Reads placed data by a schema; `path` is where it stands in the file, `about` names it in sentences: `H1`, `the engine`. */
export type Whole = { readonly root: Placed; readonly path: readonly PropertyKey[]; readonly about: string; readonly why: string };

/**
 * Tells each issue of a schema at its place. `what` gets its subject from the path (`` voltage of G1: `55 Ah` is a
 * capacity, not a voltage ``). One cause, one problem: a comma in a flow map, which splits `1,5 mm²` into a value and a
 * key, is told once, and a list in place of a map does not also miss every key of it.
 */
export function tellIssues(issues: readonly v.BaseIssue<unknown>[], whole: Whole, tell: Tell): void {
  const done = new Set<string>();
  for (const issue of issues) {
    const steps = (issue.path ?? []).map((item) => item.key as PropertyKey);
    const path = [...whole.path, ...steps];
    const said = saidIn(issue.message);
    const fallback =
      /^Invalid (type|key|length|format|value)/.test(said.what) || said.code === 'wrong-form' ? plainIssue(issue) : undefined;
    const { code, what, mend } = fallback ?? said;
    const isOfKey = code === 'unknown-key' || code === 'missing-key';
    const owner = isOfKey ? path.slice(0, -1) : path;
    const place = nodeAt(whole.root, owner);
    if (isOfKey && place?.is !== 'map') {
      const at = owner.join('\u0000');
      if (done.has(at)) continue;
      done.add(at);
      tell(spanAt(whole.root, owner), {
        code: 'wrong-shape',
        what: `${subject(steps.slice(0, -1), whole.about)}: ${place?.is === 'list' ? 'a list' : 'something else'} stands where a map is wanted`,
        why: whole.why,
        mend: ['a map is written `{ key: …, key: … }`'],
      });
      continue;
    }
    const split = place?.is === 'map' && code === 'unknown-key' ? splitByComma(place, String(path.at(-1))) : undefined;
    if (split) {
      tell(
        { start: split.from.start, end: split.to.end },
        {
          code: 'decimal-comma',
          what: `${subject([split.key], whole.about)}: the comma in \`${split.text}\` ends the entry`,
          why: whole.why,
          mend: [`write \`${split.text.replace(',', '.')}\``],
        },
      );
      continue;
    }
    if (place?.is === 'text' && isSplit(whole.root, path)) continue;
    tell(spanAt(whole.root, path, code === 'unknown-key'), {
      code,
      what: `${subject(isOfKey ? steps.slice(0, -1) : steps, whole.about)}: ${what}`,
      why: whole.why,
      mend,
    });
  }
}

/** `voltage of G1`, `positions, ON, at of S1`. */
function subject(steps: readonly PropertyKey[], about: string): string {
  if (steps.length === 0) return about;
  const names = steps.map((step) => (/^\d+$/.test(String(step)) ? `no. ${Number(step) + 1}` : String(step)));
  return about === '' ? names.join(', ') : `${names.join(', ')} of ${about}`;
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
function splitByComma(map: PlacedMap, key: string) {
  if (!/^\d+(\s*[^\d\s].*)?$/.test(key)) return undefined;
  const entries = [...map.entries.values()];
  const k = entries.findIndex((e) => e.key === key);
  const [before, after] = [entries[k - 1], entries[k]];
  if (before?.node.is !== 'text' || after?.node.is !== 'text' || after.node.text !== '') return undefined;
  if (!/^[+-]?\d+$/.test(before.node.text)) return undefined;
  return { key: before.key, text: `${before.node.text},${key}`, from: before.node.span, to: after.keySpan };
}

function isSplit(root: Placed, path: readonly PropertyKey[]): boolean {
  const map = nodeAt(root, path.slice(0, -1));
  if (map?.is !== 'map') return false;
  const entries = [...map.entries.values()];
  const next = entries[entries.findIndex((e) => e.key === String(path.at(-1))) + 1];
  return next !== undefined && splitByComma(map, next.key) !== undefined;
}

/** Words for the library's own issues, which speak of types. */
function plainIssue(issue: v.BaseIssue<unknown>): { code: string; what: string; mend: readonly string[] } {
  const wanted = issue.expected?.replaceAll('"', '`') ?? '';
  if (issue.type.endsWith('object') && issue.expected === 'never')
    return { code: 'unknown-key', what: `\`${String(issue.input)}\` is no key here`, mend: [] };
  if (issue.type.endsWith('object') && issue.expected?.startsWith('"'))
    return { code: 'missing-key', what: `${wanted} is missing`, mend: [] };
  if (issue.expected === 'Object')
    return { code: 'wrong-shape', what: 'a map is wanted here', mend: ['a map is written `{ key: …, key: … }`'] };
  if (issue.expected === 'Array') return { code: 'wrong-shape', what: 'a list is wanted here', mend: ['a list is written `[ …, … ]`'] };
  if (issue.expected === 'string') return { code: 'wrong-shape', what: 'one text is wanted here', mend: [] };
  if (issue.message.startsWith('Invalid ')) {
    const read = typeof issue.input === 'string' ? `\`${issue.input}\` does not fit here` : 'what stands here does not fit';
    return { code: 'wrong-form', what: read, mend: wanted === '' ? [] : [`wanted: ${wanted.replaceAll(' | ', ', ')}`] };
  }
  return { code: 'wrong-form', what: issue.message, mend: [] };
}
