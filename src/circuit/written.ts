import * as v from 'valibot';
import { issueText } from './issueText.ts';
import { nearNames } from './nearNames.ts';
import type { Dimension } from './parameter.ts';
import { quantityText, readQuantity } from './quantity.ts';
import { units } from './units.ts';

/**
 * Valibot schemas for what is written in a circuit file. The reader hands every scalar over as text, as it stands in
 * the file (`'60°'`, `'yes'`, `'9'`), lists as arrays, and maps as objects; so a form of a part is put together from
 * these and from `v.record`, `v.array`, `v.union`. `json` is what the JSON Schema says in place of the reading.
 */
export type Json = { readonly [key: string]: unknown };
export const jsonOf = new WeakMap<object, Json>();

type Reading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly code: string; readonly what: string; readonly mend: readonly string[] };

/** A schema from text to `T`. Anything but text is told as `wrong-shape` with what is wanted. */
export function writtenText<T>(wanted: string, json: Json, read: (text: string) => Reading<T>): v.GenericSchema<string, T> {
  const text = v.string(issueText('wrong-shape', `a list or a map stands here; ${wanted} is wanted`, [`write ${wanted} without brackets`]));
  jsonOf.set(text, json);
  return v.pipe(
    text,
    v.rawTransform<string, T>(({ dataset, addIssue, NEVER }) => {
      const text = dataset.value;
      if (text === '') {
        addIssue({ message: issueText('empty', `nothing is written here; ${wanted} is wanted`, [`write ${wanted} behind the colon`]) });
        return NEVER;
      }
      const got = read(text);
      if (got.ok) return got.value;
      addIssue({ message: issueText(got.code, got.what, got.mend) });
      return NEVER;
    }),
  );
}

export type Range = { readonly min?: number | undefined; readonly max?: number | undefined };
/** What a file writes for a quantity that nobody knows. */
export const unknownWord = 'unknown';

/**
 * A quantity with its unit, held as in Dimension. Range in the held unit, ends included.
 * @param unknown taken for the word `unknown`; without it the word is no quantity
 */
export function writtenQuantity(dimension: Dimension, range: Range = {}, unknown?: number): v.GenericSchema<string, number> {
  const { noun, example } = units[dimension];
  return writtenText(noun, { type: 'string', examples: [example] }, (text) => {
    if (text === unknownWord && unknown !== undefined) return { ok: true, value: unknown };
    const got = readQuantity(text, dimension);
    if (!got.ok) return { ok: false, code: got.code, what: got.why, mend: got.mend };
    return inRange(text, got.value, { ...usual(dimension), ...known(range) }, (n) => quantityText(n, dimension));
  });
}

/** A bare whole number. */
export function writtenCount(range: Range = {}): v.GenericSchema<string, number> {
  const ends = { ...(range.min === undefined ? {} : { minimum: range.min }), ...(range.max === undefined ? {} : { maximum: range.max }) };
  return writtenText('a whole number', { type: ['integer', 'string'], ...ends }, (text) => {
    if (!/^[+-]?\d{1,15}$/.test(text))
      return {
        ok: false,
        code: 'not-a-count',
        what: `\`${text}\` is not a whole number`,
        mend: ['write digits only, without a point or a unit'],
      };
    return inRange(text, Number(text), { min: 0, ...known(range) }, String);
  });
}

/** yes or no; what JSON and older YAML write as true and false is read too. */
export function writtenFlag(): v.GenericSchema<string, boolean> {
  return writtenText('yes or no', { type: ['string', 'boolean'], enum: ['yes', 'no', true, false] }, (text) => {
    if (text === 'yes' || text === 'true') return { ok: true, value: true };
    if (text === 'no' || text === 'false') return { ok: true, value: false };
    return { ok: false, code: 'not-yes-or-no', what: `\`${text}\` is neither yes nor no`, mend: ['write `yes` or `no`'] };
  });
}

/** One of a few words. */
export function writtenWord<const W extends string>(words: readonly W[]): v.GenericSchema<string, W> {
  return writtenText(`one of ${words.join(', ')}`, { type: 'string', enum: words }, (text) => {
    const found = words.find((w) => w === text);
    if (found !== undefined) return { ok: true, value: found };
    const near = nearNames(text, words);
    const all = `words: ${words.map((w) => `\`${w}\``).join(', ')}`;
    return {
      ok: false,
      code: 'unknown-word',
      what: `\`${text}\` is none of the words for this place`,
      mend: near.length > 0 ? [`words with a near name: ${near.map((w) => `\`${w}\``).join(', ')}`, all] : [all],
    };
  });
}

/** Any text that is not empty. A bare number in JSON is text too. */
export function writtenName(): v.GenericSchema<string, string> {
  return writtenText('a text', { type: ['string', 'number'] }, (value) => ({ ok: true, value }));
}

/** One or several: `spark: T1` and `spark: [T1, T2]`. */
export function writtenNames(): v.GenericSchema<string | string[], string[]> {
  return v.union(
    [
      v.pipe(
        writtenName(),
        v.transform((one) => (one === '' ? [] : [one])),
      ),
      v.array(writtenName()),
    ],
    issueText('wrong-shape', 'a text or a list of texts is wanted here', ['write one, or several as `[ …, … ]`']),
  );
}

function known(range: Range): Range {
  return { ...(range.min === undefined ? {} : { min: range.min }), ...(range.max === undefined ? {} : { max: range.max }) };
}

/** What no part can be, whatever its kind says: 1 nΩ to 1 TΩ, and sizes below nothing. */
function usual(dimension: Dimension): Range & { readonly least?: number } {
  if (dimension === 'resistance') return { min: 0, max: 1e12, least: 1e-9 };
  if (dimension === 'temperature') return { min: -80, max: 1200 };
  if (dimension === 'voltage' || dimension === 'current' || dimension === 'angle') return {};
  return { min: 0 };
}

function inRange(text: string, value: number, range: Range & { readonly least?: number }, show: (n: number) => string): Reading<number> {
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY, least = 0 } = range;
  if (value >= min && value <= max && (value === 0 || Math.abs(value) >= least)) return { ok: true, value };
  const from = value !== 0 && value > min && Math.abs(value) < least ? least : min;
  const limits =
    max === Number.POSITIVE_INFINITY
      ? `${show(from)} or more`
      : from === Number.NEGATIVE_INFINITY
        ? `${show(max)} or less`
        : `from ${show(from)} to ${show(max)}`;
  return { ok: false, code: 'out-of-range', what: `\`${text}\` is outside of what this can be`, mend: [`it is ${limits}`] };
}
