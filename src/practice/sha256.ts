/** Round constants: first 32 bits of the fractional parts of the cube roots of the first 64 primes. */
const k = constants(64, 1 / 3);
/** Starting value: the same of the square roots of the first eight. */
const start = constants(8, 1 / 2);

function constants(count: number, power: number): Uint32Array {
  const found: number[] = [];
  for (let n = 2; found.length < count; n++) {
    let isPrime = true;
    for (let d = 2; d * d <= n; d++) if (n % d === 0) isPrime = false;
    if (isPrime) found.push((n ** power % 1) * 0x100000000);
  }
  return Uint32Array.from(found);
}

const rot = (x: number, n: number): number => (x >>> n) | (x << (32 - n));

/** SHA-256 of some bytes, 32 bytes. Source: FIPS PUB 180-4, sections 4.1.2, 4.2.2, 5.3.3 and 6.2 (from memory; test vectors in the tests). */
export function sha256(bytes: Uint8Array): Uint8Array {
  const blocks = Math.ceil((bytes.length + 9) / 64);
  const padded = new Uint8Array(blocks * 64);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor((bytes.length * 8) / 0x100000000));
  view.setUint32(padded.length - 4, (bytes.length * 8) >>> 0);
  const hash = Uint32Array.from(start);
  const w = new Uint32Array(64);
  for (let b = 0; b < blocks; b++) {
    for (let t = 0; t < 16; t++) w[t] = view.getUint32(b * 64 + t * 4);
    for (let t = 16; t < 64; t++) {
      const [x, y] = [w[t - 15]!, w[t - 2]!];
      w[t] = w[t - 16]! + (rot(x, 7) ^ rot(x, 18) ^ (x >>> 3)) + w[t - 7]! + (rot(y, 17) ^ rot(y, 19) ^ (y >>> 10));
    }
    let [a, c2, c, d, e, f, g, h] = hash as unknown as [number, number, number, number, number, number, number, number];
    for (let t = 0; t < 64; t++) {
      const one = (h + (rot(e, 6) ^ rot(e, 11) ^ rot(e, 25)) + ((e & f) ^ (~e & g)) + k[t]! + w[t]!) | 0;
      const two = ((rot(a, 2) ^ rot(a, 13) ^ rot(a, 22)) + ((a & c2) ^ (a & c) ^ (c2 & c))) | 0;
      [h, g, f, e, d, c, c2, a] = [g, f, e, (d + one) | 0, c, c2, a, (one + two) | 0];
    }
    for (const [n, x] of [a, c2, c, d, e, f, g, h].entries()) hash[n] = hash[n]! + x;
  }
  const out = new Uint8Array(32);
  for (let n = 0; n < 8; n++) new DataView(out.buffer).setUint32(n * 4, hash[n]!);
  return out;
}
