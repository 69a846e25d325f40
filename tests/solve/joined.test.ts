import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Joined, SourceLoop } from '../../src/solve/joined.ts';

test('what was never joined is not there, and stands for itself', () => {
  const joined = new Joined();
  expect(joined.has('a')).toBe(false);
  expect(joined.root('a')).toEqual({ name: 'a', volt: 0 });
  joined.join('a', 'b', 0);
  expect([joined.has('a'), joined.has('b'), joined.has('c')]).toEqual([true, true, false]);
});

test('volts between any two joined terminals are those of any way from one to the other', () => {
  const volts = fc.array(fc.integer({ min: -24, max: 24 }), { minLength: 2, maxLength: 12 });
  fc.assert(
    fc.property(volts, fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 30 }), (at, pairs) => {
      const joined = new Joined();
      const islands = at.map((_v, k) => k);
      for (const [x, y] of pairs) {
        const [a, b] = [x % at.length, y % at.length];
        joined.join(`t${a}`, `t${b}`, at[a]! - at[b]!);
        const [from, to] = [islands[a]!, islands[b]!];
        for (const [k, island] of islands.entries()) if (island === from) islands[k] = to;
      }
      for (const a of at.keys())
        for (const b of at.keys()) {
          const [ra, rb] = [joined.root(`t${a}`), joined.root(`t${b}`)];
          expect(ra.name === rb.name).toBe(islands[a] === islands[b]);
          if (ra.name === rb.name) expect(ra.volt - rb.volt).toBeCloseTo(at[a]! - at[b]!, 9);
        }
    }),
    { seed: 20_261_125, numRuns: 100 },
  );
});

test('a second way with the same volts is no matter, one with others has no solution and names both ends', () => {
  const joined = new Joined();
  joined.join('a', 'b', 12);
  joined.join('b', 'c', -5);
  joined.join('a', 'c', 7);
  expect(() => joined.join('c', 'a', 7)).toThrow(SourceLoop);
  expect(() => joined.join('a', 'c', 7.1)).toThrow('a and c are joined twice with different voltages');
  expect(() => joined.join('a', 'a', 1)).toThrow(SourceLoop);
});
