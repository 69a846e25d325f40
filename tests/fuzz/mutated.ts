import type { Dice } from './dice.ts';

/** What tends to upset a reader: names that every object has, numbers at the edge, signs of the file format, texts that drive a screen. */
export const nasty: readonly string[] = [
  ...[
    '__proto__',
    'constructor',
    'toString',
    'hasOwnProperty',
    'prototype',
    'valueOf',
    'null',
    'true',
    'NaN',
    'Infinity',
    '-0',
    '1e309',
    '1e-320',
  ],
  ...['9007199254740993', '0x10', '1_000', '1,5', '١٢', '½', '', ' ', '\t', '\u00a0', '\u2028', '\ufeff', '\u0000', '\u0007', '\u001b[31m'],
  ...[
    '\u202e',
    '\u2066',
    '\ud800',
    '\udfff',
    'é'.normalize('NFD'),
    'Ω',
    'Ω',
    'µ',
    'μ',
    '°',
    '…',
    '..',
    '-',
    '--',
    '->',
    '|',
    '>',
    '&a',
    '*a',
    '!!js/function',
    '<<',
  ],
  ...[
    '{',
    '}',
    '[',
    ']',
    '{{',
    '[[[[[[[[',
    '"',
    "'",
    '`',
    '#',
    ':',
    '::',
    ',',
    ',,',
    '%',
    '@',
    '?',
    '\\',
    '\\u0000',
    '\r',
    '\r\n',
    '\n',
    '\n\n',
    '---',
    '...',
  ],
  ...[
    '<script>alert(1)</script>',
    '<img src=x onerror=alert(1)>',
    '$$',
    '%s',
    '../../../etc/passwd',
    "'; drop",
    'A'.repeat(3000),
    '('.repeat(200),
    '[{'.repeat(60),
  ],
];

/** Words, numbers, white space and signs, one by one. */
const tokensOf = (text: string): string[] => text.match(/[\p{L}_][\p{L}\p{N}_-]*|\d+(?:\.\d+)?|\s+|[\s\S]/gu) ?? [];

/** Changes a text by its words: leaves out, repeats, exchanges, borrows from another text, puts in what upsets. */
export function byWords(text: string, others: readonly string[], dice: Dice): string {
  const tokens = tokensOf(text);
  for (let k = 1 + dice.roll(3); k > 0; k--) {
    const at = dice.roll(tokens.length + 1);
    const length = 1 + dice.roll(dice.once(4) ? 12 : 2);
    switch (dice.roll(7)) {
      case 0:
        tokens.splice(at, length);
        break;
      case 1:
        tokens.splice(at, 0, ...tokens.slice(at, at + length));
        break;
      case 2: {
        const from = dice.roll(tokens.length);
        const held = tokens[at];
        if (held !== undefined) [tokens[at], tokens[from]] = [tokens[from]!, held];
        break;
      }
      case 3: {
        const other = tokensOf(dice.pick(others).slice(0, 2000));
        const from = dice.roll(other.length);
        tokens.splice(at, dice.roll(2) * length, ...other.slice(from, from + length));
        break;
      }
      case 4:
        tokens.splice(at, dice.roll(2), dice.pick(nasty));
        break;
      case 5:
        tokens[at] = number(dice);
        break;
      default: {
        const from = dice.roll(tokens.length);
        tokens.splice(dice.roll(tokens.length), 0, ...tokens.splice(from, length));
      }
    }
  }
  return tokens.join('');
}

const number = (dice: Dice): string =>
  dice.pick(['', '-', '+', '.', '1e']) +
  dice.roll(dice.pick([2, 10, 100, 100_000, 4e9])) +
  dice.pick(['', '.5', ',5', 'e9', ' V', ' Ω', '°', ' %', ' mA', 'k', 's']);

/** Changes a text by its lines: leaves out, repeats, exchanges, indents, borrows. */
export function byLines(text: string, others: readonly string[], dice: Dice): string {
  const lines = text.split('\n');
  for (let k = 1 + dice.roll(3); k > 0; k--) {
    const at = dice.roll(lines.length);
    switch (dice.roll(6)) {
      case 0:
        lines.splice(at, 1 + dice.roll(3));
        break;
      case 1:
        lines.splice(at, 0, lines[dice.roll(lines.length)] ?? '');
        break;
      case 2:
        lines[at] = ' '.repeat(dice.roll(7)) + (lines[at] ?? '').trimStart();
        break;
      case 3: {
        const other = dice.pick(others).split('\n');
        lines.splice(at, dice.roll(2), dice.pick(other));
        break;
      }
      case 4:
        lines[at] = (lines[at] ?? '').slice(0, dice.roll((lines[at] ?? '').length));
        break;
      default:
        lines.splice(dice.roll(lines.length), 0, ...lines.splice(at, 1 + dice.roll(4)));
    }
  }
  return lines.join('\n');
}

/** Changes the bytes of a text and reads them again as far as they are text. */
export function byBytes(text: string, dice: Dice): string {
  const bytes = [...new TextEncoder().encode(text)];
  for (let k = 1 + dice.roll(5); k > 0; k--) {
    const at = dice.roll(bytes.length + 1);
    switch (dice.roll(4)) {
      case 0:
        bytes[at] = (bytes[at] ?? 0) ^ (1 << dice.roll(8));
        break;
      case 1:
        bytes.splice(at, 1 + dice.roll(20));
        break;
      case 2:
        bytes.splice(at, 0, dice.roll(256));
        break;
      default:
        bytes.splice(at, 0, ...bytes.slice(at, at + dice.roll(30)));
    }
  }
  return new TextDecoder().decode(Uint8Array.from(bytes));
}

/** One way or several of them together. */
export function mutated(text: string, others: readonly string[], dice: Dice): string {
  const ways = [
    () => byWords(text, others, dice),
    () => byWords(text, others, dice),
    () => byBytes(text, dice),
    () => byLines(text, others, dice),
    () => byBytes(byWords(text, others, dice), dice),
    () => byWords(byLines(text, others, dice), others, dice),
  ];
  return dice.pick(ways)();
}
