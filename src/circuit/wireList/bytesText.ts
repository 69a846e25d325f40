export type Encoding = 'UTF-8' | 'UTF-16' | 'Latin-1';

/** Windows writes these where Latin-1 has control characters (code page 1252, from memory); unused places give U+FFFD. */
const windows = '€�‚ƒ„…†‡ˆ‰Š‹Œ�Ž��‘’“”•–—˜™š›œ�žŸ';

/**
 * Text of a file of which nobody says how it was saved: UTF-16 by its mark, UTF-8 where every byte fits, Latin-1 (as
 * Windows writes it) otherwise. A Latin-1 text with an accented letter is practically never sound UTF-8.
 */
export function textOfBytes(bytes: Uint8Array): { readonly text: string; readonly encoding: Encoding } {
  const [a, b, c] = bytes;
  if (a === 0xff && b === 0xfe) return { text: utf16(bytes, 1), encoding: 'UTF-16' };
  if (a === 0xfe && b === 0xff) return { text: utf16(bytes, 0), encoding: 'UTF-16' };
  const marked = a === 0xef && b === 0xbb && c === 0xbf;
  const text = utf8(marked ? bytes.subarray(3) : bytes);
  return text === undefined ? { text: latin1(bytes), encoding: 'Latin-1' } : { text, encoding: 'UTF-8' };
}

/** Undefined at the first byte that does not fit. */
function utf8(bytes: Uint8Array): string | undefined {
  const pieces: string[] = [];
  let piece = '';
  for (let k = 0; k < bytes.length; ) {
    const first = bytes[k]!;
    const more = first < 0x80 ? 0 : first < 0xc2 ? -1 : first < 0xe0 ? 1 : first < 0xf0 ? 2 : first < 0xf5 ? 3 : -1;
    if (more < 0 || k + more >= bytes.length) return undefined;
    let code = more === 0 ? first : first & (0x3f >> more);
    for (let j = 1; j <= more; j++) {
      const next = bytes[k + j]!;
      if ((next & 0xc0) !== 0x80) return undefined;
      code = (code << 6) | (next & 0x3f);
    }
    // Too long a form, half of a pair, beyond the last sign.
    if ((more === 2 && code < 0x800) || (more === 3 && code < 0x10000) || (code >= 0xd800 && code < 0xe000) || code > 0x10ffff)
      return undefined;
    piece += String.fromCodePoint(code);
    if (piece.length > 4096) {
      pieces.push(piece);
      piece = '';
    }
    k += more + 1;
  }
  return pieces.join('') + piece;
}

function latin1(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += byte >= 0x80 && byte < 0xa0 ? windows[byte - 0x80] : String.fromCharCode(byte);
  return text;
}

/** @param high where in each pair of bytes the high one stands */
function utf16(bytes: Uint8Array, high: 0 | 1): string {
  let text = '';
  for (let k = 2; k + 1 < bytes.length; k += 2) text += String.fromCharCode((bytes[k + high]! << 8) | bytes[k + 1 - high]!);
  return text;
}
