import { sha256 } from './sha256.ts';

/** Turns of the mill between a pass-word and its key, so that guessing takes longer than reading. */
const turns = 2000;

/**
 * Seals a text so that reading the file, the storage or the page does not give it away. A seal, not a safe: the program
 * must open it to simulate the vehicle, so whoever writes a program can do the same. With a pass-word it stays shut
 * until that is given.
 *
 * @param salt something that goes with it in the clear: the seed of the exercise
 * @returns hexadecimal digits: 8 to check the key, then the text under a key stream
 */
export function sealed(text: string, salt: string, pass = ''): string {
  const key = keyOf(salt, pass);
  const bytes = utf8(text);
  return hex(check(key)) + hex(mixed(bytes, key));
}

/** The text, or undefined when the pass-word is another or these are no such digits. Changed digits may give another text: what it says is held against the fingerprint. */
export function unsealed(digits: string, salt: string, pass = ''): string | undefined {
  if (!/^([0-9a-f]{2})+$/.test(digits) || digits.length < 8) return undefined;
  const key = keyOf(salt, pass);
  if (digits.slice(0, 8) !== hex(check(key))) return undefined;
  return text(mixed(unhex(digits.slice(8)), key));
}

/** A fingerprint of an answer, to tell that a kept session still belongs to its exercise; it names no fault, but whoever tries every fault of the circuit finds the one that fits. */
export const digestOf = (words: string, salt: string): string => hex(sha256(utf8(`${salt}\n${words}`))).slice(0, 16);

function keyOf(salt: string, pass: string): Uint8Array {
  let key = sha256(utf8(`${salt}\n${pass}`));
  for (let k = 0; k < turns; k++) key = sha256(key);
  return key;
}

const check = (key: Uint8Array): Uint8Array => sha256(Uint8Array.from([...key, 0x63])).slice(0, 4);

/** Key stream: SHA-256 of the key and a counter, block by block. The same forwards and backwards. */
function mixed(bytes: Uint8Array, key: Uint8Array): Uint8Array {
  const out = new Uint8Array(bytes.length);
  for (let block = 0; block * 32 < bytes.length; block++) {
    const stream = sha256(Uint8Array.from([...key, 0x73, block & 255, block >> 8]));
    for (let k = 0; k < 32 && block * 32 + k < bytes.length; k++) out[block * 32 + k] = bytes[block * 32 + k]! ^ stream[k]!;
  }
  return out;
}

const hex = (bytes: Uint8Array): string => [...bytes].map((b) => b.toString(16).padStart(2, '0')).join('');
const unhex = (digits: string): Uint8Array => Uint8Array.from(digits.match(/../g) ?? [], (d) => Number.parseInt(d, 16));
/** UTF-8 by way of the address encoding: the pure part of the program knows no encoder. */
const utf8 = (words: string): Uint8Array =>
  Uint8Array.from(encodeURIComponent(words).match(/%..|./g) ?? [], (ch) =>
    ch.length === 3 ? Number.parseInt(ch.slice(1), 16) : ch.charCodeAt(0),
  );
function text(bytes: Uint8Array): string | undefined {
  try {
    return decodeURIComponent([...bytes].map((b) => `%${b.toString(16).padStart(2, '0')}`).join(''));
  } catch {
    return undefined;
  }
}
