import fc from 'fast-check';
import { expect, test } from 'vitest';
import { blocks, type Edge } from '../../src/circuit/reach.ts';

const edge = (from: number, to: number): Edge<null> => ({ from, to, mark: null });

test('two loops that touch in one point are two blocks, a bridge is a block of its own', () => {
  // 0-1-2-0, 2-3-4-2, 4-5
  const of = blocks(6, [edge(0, 1), edge(1, 2), edge(2, 0), edge(2, 3), edge(3, 4), edge(4, 2), edge(4, 5), edge(5, 5)]);
  expect(new Set([of[0], of[1], of[2]]).size).toBe(1);
  expect(new Set([of[3], of[4], of[5]]).size).toBe(1);
  expect(new Set([of[0], of[3], of[6]]).size).toBe(3);
  expect(of[7]).toBe(-1);
});

test('two edges between the same points are a loop', () => {
  const of = blocks(2, [edge(0, 1), edge(1, 0)]);
  expect(of[0]).toBe(of[1]);
});

/** Two edges lie on one closed way without a point twice: by looking for two ways apart, point by point. */
function onOneLoop(nodes: number, edges: readonly Edge<null>[], a: number, b: number): boolean {
  const [first, second] = [edges[a]!, edges[b]!];
  if (first.from === first.to || second.from === second.to) return false;
  const walk = (at: number, seen: ReadonlySet<number>, passed: boolean): boolean => {
    for (const [k, e] of edges.entries()) {
      if (k === a || e.from === e.to || (e.from !== at && e.to !== at)) continue;
      const other = e.from === at ? e.to : e.from;
      const now = passed || k === b;
      if (other === first.from && now) return true;
      if (!seen.has(other) && other !== first.from && walk(other, new Set([...seen, other]), now)) return true;
    }
    return false;
  };
  return a === b || walk(first.to, new Set([first.to]), false) || nodes < 0;
}

test('blocks are what a search for closed ways finds', () => {
  const graph = fc
    .integer({ min: 2, max: 6 })
    .chain((n) => fc.record({ n: fc.constant(n), ends: fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { minLength: 1, maxLength: 9 }) }));
  fc.assert(
    fc.property(graph, ({ n, ends }) => {
      const edges = ends.map(([a, b]) => edge(a, b));
      const of = blocks(n, edges);
      for (const a of edges.keys())
        for (const b of edges.keys())
          if (a !== b && edges[a]!.from !== edges[a]!.to && edges[b]!.from !== edges[b]!.to)
            expect(of[a] === of[b]).toBe(onOneLoop(n, edges, a, b));
    }),
    { seed: 3, numRuns: 400 },
  );
});

test('a ladder of 100 000 edges needs no stack', () => {
  const edges = Array.from({ length: 100_000 }, (_, k) => edge(k, k + 1));
  expect(new Set(blocks(100_001, edges)).size).toBe(100_000);
});
