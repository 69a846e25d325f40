import * as v from 'valibot';
import { issueText } from '../../circuit/issueText.ts';
import { readQuantity } from '../../circuit/quantity.ts';
import { writtenMap } from '../../circuit/shape.ts';
import { writtenFlag, writtenName, writtenQuantity, writtenText, writtenWord } from '../../circuit/written.ts';
import { contactName } from '../shared/contactName.ts';

/** Degrees of switch travel in which a pair of terminals is joined, both ends included; from <= to. */
export type Sector = readonly [from: number, to: number];
export type Position = {
  readonly name: string;
  /** Degrees of key travel. */
  readonly angle: number;
  readonly keyOut: boolean;
  readonly springsTo?: string;
  /** The key must go back to its first position before it can come here again. */
  readonly repeatLock: boolean;
};
export type Contacts = Readonly<Record<string, readonly Sector[]>>;
export type ContactTable = Readonly<Record<string, readonly string[]>>;

const sector = writtenText('a sector of rotation', { type: 'string', examples: ['48°..95°'] }, (text) => {
  const [first = '', last, ...more] = text.split('..');
  const wrong = {
    ok: false,
    code: 'sector',
    what: `\`${text}\` is not a sector of rotation`,
    mend: ['write it like this: `48°..95°`'],
  } as const;
  if (last === undefined || more.length > 0) return wrong;
  // The unit may stand once, behind the second angle.
  const from = readQuantity(/^\s*[-+]?[\d.]+\s*$/.test(first) ? `${first}°` : first, 'angle');
  const to = readQuantity(last, 'angle');
  if (!from.ok || !to.ok) return wrong;
  if (from.value > to.value) return { ...wrong, what: `sector \`${text}\` ends before it begins`, mend: ['write the smaller angle first'] };
  return { ok: true, value: [from.value, to.value] as Sector };
});

export const positionsForm = v.pipe(
  v.record(
    v.string(),
    writtenMap({
      at: writtenQuantity('angle', { min: -360, max: 360 }),
      'key-out': v.optional(writtenFlag()),
      'springs-to': v.optional(writtenName()),
      'repeat-lock': v.optional(writtenFlag()),
    }),
    issueText('wrong-shape', 'positions are written as a map: each name, a colon, and its angle', ['write `ON: { at: 60° }`']),
  ),
  v.transform((written): readonly Position[] =>
    Object.entries(written)
      .map(([name, p]) => ({
        name,
        angle: p.at,
        keyOut: p['key-out'] ?? false,
        ...(p['springs-to'] !== undefined && { springsTo: p['springs-to'] }),
        repeatLock: p['repeat-lock'] ?? false,
      }))
      .sort((a, b) => a.angle - b.angle),
  ),
);

export const contactsForm: v.GenericSchema<unknown, Contacts> = v.record(
  contactName,
  v.array(sector, issueText('wrong-shape', 'a list of sectors is wanted here', ['write `[48°..95°]`'])),
  issueText('wrong-shape', 'contacts are written as a map: each pair, a colon, and its sectors', ['write `30-15: [48°..95°]`']),
);

export const tableForm: v.GenericSchema<unknown, ContactTable> = v.record(
  v.string(),
  v.array(contactName, issueText('wrong-shape', 'a list of contacts is wanted here', ['write `[30-75, 30-15]`, and `[]` for none'])),
  issueText('wrong-shape', 'the table is written as a map: each position, a colon, and its closed contacts', [
    'write `ON: [30-75, 30-15]`',
  ]),
);

/** A contact's rating, or `all` for every contact; `40 A short` is held as 40 A. */
export const ratingsForm: v.GenericSchema<unknown, Readonly<Record<string, number>>> = v.record(
  v.string(),
  writtenText('a current', { type: 'string', examples: ['20 A'] }, (text) => {
    const got = readQuantity(text.replace(/\s+short$/, ''), 'current');
    return got.ok ? { ok: true, value: got.value } : { ok: false, code: got.code, what: got.why, mend: got.mend };
  }),
);

export const keyInForm = writtenMap({ pair: contactName, 'closed-when': v.optional(writtenWord(['key in', 'key out'])) });
