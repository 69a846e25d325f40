import { BLOCK, GROUND } from '../circuit.ts';
import { isIdForm } from '../ids.ts';
import { folded } from './headerWords.ts';

/** A wire's end as a circuit file writes it; `part` is the id before its point, `name` what a person had written for it. */
export type EndRead = {
  readonly text: string;
  readonly part?: string;
  readonly terminal?: string;
  readonly name?: string;
  /** Another way of writing than the file's own was taken apart. */
  readonly changed: boolean;
};

const bodyWords = new Set([
  'ground',
  'gnd',
  'earth',
  'chassis',
  'chassis ground',
  'body',
  'frame',
  'mass',
  'masse',
  'karosserie',
  'karosseriemasse',
  'terre',
]);
bodyWords.add('masse carrosserie').add('masse chassis');
const blockWords = new Set([
  'block',
  'engine',
  'engine block',
  'engine ground',
  'motor',
  'motorblock',
  'motormasse',
  'bloc moteur',
  'masse moteur',
]);

/**
 * An end as people write it: `S1.15`, `S1:15`, `-S1:15` (IEC 81346), `S1/15`, `S1 15`, `Masse`, `Lamp left 1`. What is
 * written in the file's own way stays exactly as it is.
 *
 * @param known ids of parts that the file describes itself
 * @returns undefined when nothing can be made of it
 */
export function endRead(written: string, terminal: string, known: ReadonlySet<string>): EndRead | undefined {
  const text = written.trim();
  if (text === GROUND || text === BLOCK) return { text, changed: false };
  const word = folded(text);
  if (terminal === '' && !known.has(text)) {
    if (bodyWords.has(word)) return { text: GROUND, changed: true };
    if (blockWords.has(word)) return { text: BLOCK, changed: true };
  }
  if (terminal !== '') {
    const id = idOf(text);
    const pin = pinOf(terminal);
    return id === undefined || pin === '' ? undefined : made(id, pin, text, text !== id);
  }
  const own = parted(text, text.indexOf('.'));
  if (known.has(text) || (own && known.has(own[0]))) return { ...split(text), text, changed: false };
  if (own && isIdForm(own[0]) && pinOf(own[1]) === own[1]) return made(own[0], own[1], own[0], false);
  const bare = text.replace(/^[-+=]+(?=\p{L})/u, '');
  for (const sign of [':', '/']) {
    const pieces = parted(bare, bare.indexOf(sign));
    const id = pieces && idOf(pieces[0]);
    if (pieces && id !== undefined && pinOf(pieces[1]) !== '') return made(id, pinOf(pieces[1]), pieces[0], true);
  }
  // A point within a name with blanks: `Lamp left.1`.
  const dotted = parted(bare, bare.lastIndexOf('.'));
  const dottedId = dotted === undefined ? undefined : idOf(dotted[0]);
  if (dotted && dottedId !== undefined && pinOf(dotted[1]) !== '' && !/\s/.test(dotted[1]))
    return made(dottedId, pinOf(dotted[1]), dotted[0], true);
  // `S1 15`: a code and a terminal; in longer words the last is taken for a terminal when it is a number or a sign.
  const blank = /^(\S+)\s+(\S{1,4})$/.exec(bare) ?? /^(.+?)\s+(\d{1,3}[a-z]?|[+-])$/i.exec(bare);
  const blankId = blank === null ? undefined : idOf(blank[1]!);
  if (blank && blankId !== undefined && (known.has(blankId) || /\d/.test(blank[2]!) || /^[+-]$/.test(blank[2]!)))
    return made(blankId, pinOf(blank[2]!), blank[1]!, true);
  const id = idOf(bare);
  return id === undefined ? undefined : { text: id, part: id, changed: id !== text, ...(id !== bare && { name: bare }) };
}

function made(id: string, terminal: string, name: string, changed: boolean): EndRead {
  return { text: `${id}.${terminal}`, part: id, terminal, changed, ...(name !== id && !/^[-+=]/.test(name) && { name }) };
}

function split(text: string): Pick<EndRead, 'part' | 'terminal'> {
  const own = parted(text, text.indexOf('.'));
  return own ? { part: own[0], terminal: own[1] } : { part: text };
}

function parted(text: string, at: number): readonly [string, string] | undefined {
  return at <= 0 || at >= text.length - 1 ? undefined : [text.slice(0, at).trim(), text.slice(at + 1).trim()];
}

/** An id made of what a person wrote: blanks and signs become dashes. */
export function idOf(written: string): string | undefined {
  const id = written
    .normalize('NFC')
    .trim()
    .replace(/^[-+=]+/, '')
    .replace(/[^\p{L}\p{N}_/'-]+/gu, '-')
    .replace(/^[-/_']+|[-/_']+$/g, '')
    .slice(0, 60);
  return isIdForm(id) && !['ground', 'block', 'engine', 'key', 'jumper', 'between', 'after', 'release', 'off', 'on'].includes(id)
    ? id
    : undefined;
}

/** A terminal without blanks and points. */
function pinOf(written: string): string {
  return written
    .trim()
    .replace(/[\s.,]+/g, '-')
    .slice(0, 20);
}
