import { expect, test } from 'vitest';
import { digestOf, sealed, unsealed } from '../../src/practice/seal.ts';
import { sha256 } from '../../src/practice/sha256.ts';

const hex = (bytes: Uint8Array) => [...bytes].map((b) => b.toString(16).padStart(2, '0')).join('');
const ascii = (text: string) => Uint8Array.from(text, (ch) => ch.charCodeAt(0));

test.each([
  { text: '', digest: 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855', source: 'NIST CAVP SHA256ShortMsg, Len = 0' },
  { text: 'abc', digest: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', source: 'FIPS 180-2, appendix B.1' },
  {
    text: 'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    digest: '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    source: 'FIPS 180-2, appendix B.2',
  },
])('SHA-256: $source', ({ text, digest }) => {
  expect(hex(sha256(ascii(text)))).toBe(digest);
});

test('what is sealed opens with its own salt and pass-word, and with no other', () => {
  const text = 'S1.30-15 0.5 Ω\nXE2 open';
  const digits = sealed(text, 'seed 7', 'brass');
  expect(digits).toMatch(/^[0-9a-f]+$/);
  expect(unsealed(digits, 'seed 7', 'brass')).toBe(text);
  expect(unsealed(digits, 'seed 7', 'copper')).toBeUndefined();
  expect(unsealed(digits, 'seed 8', 'brass')).toBeUndefined();
  expect(unsealed('zz', 'seed 7', 'brass')).toBeUndefined();
});

test('a digest tells two answers apart and does not hold them', () => {
  expect(digestOf('F3 blown', 'a')).not.toBe(digestOf('F4 blown', 'a'));
  expect(digestOf('F3 blown', 'a')).toMatch(/^[0-9a-f]{16}$/);
});
