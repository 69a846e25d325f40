import { writtenText } from '../../circuit/written.ts';

/** `30-15`: two terminals, neither with a dash in its name. */
export const contactName = writtenText('two terminals with a dash between', { type: 'string', examples: ['30-15'] }, (text) =>
  /^[^-\s]+-[^-\s]+$/.test(text)
    ? { ok: true, value: text }
    : {
        ok: false,
        code: 'contact-name',
        what: `\`${text}\` is not a pair of terminals`,
        mend: ['write both terminals with a dash between: `30-15`'],
      },
);

/** The two terminals of a contact's name. */
export function contactEnds(id: string): readonly [string, string] {
  const [first = '', second = ''] = id.split('-');
  return [first, second];
}
