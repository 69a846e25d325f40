import { Matrix, solve } from 'ml-matrix';
import type { LinearNetwork } from '../../../src/solve/linearNetwork.ts';

/**
 * Volts of an exported network by modified nodal analysis with a general dense solver: a row for each node, and one
 * for the current of each exact source. Nothing of it is shared with the program.
 */
export function solvedElsewhere(net: LinearNetwork): { readonly volts: Map<string, number>; readonly trusted: boolean } {
  const exact = net.sources.filter((s) => s.ohm === 0);
  const free = net.nodes.filter((n) => n !== net.reference);
  const row = new Map(free.map((n, k) => [n, k] as const));
  const size = free.length + exact.length;
  const matrix = Matrix.zeros(size, size);
  const right = Matrix.zeros(size, 1);
  const add = (a: string, b: string, siemens: number) => {
    for (const [i, j] of [
      [a, b],
      [b, a],
    ] as const) {
      const [p, q] = [row.get(i), row.get(j)];
      if (p === undefined) continue;
      matrix.set(p, p, matrix.get(p, p) + siemens);
      if (q !== undefined) matrix.set(p, q, matrix.get(p, q) - siemens);
    }
  };
  const feed = (node: string, ampere: number) => {
    const k = row.get(node);
    if (k !== undefined) right.set(k, 0, right.get(k, 0) + ampere);
  };
  for (const { from, to, ohm } of net.resistances) add(from, to, 1 / ohm);
  for (const { plus, minus, volt, ohm } of net.sources) {
    if (ohm === 0) continue;
    add(plus, minus, 1 / ohm);
    feed(plus, volt / ohm);
    feed(minus, -volt / ohm);
  }
  for (const { into, outOf, ampere } of net.currents) {
    feed(into, ampere);
    feed(outOf, -ampere);
  }
  for (const [k, { plus, minus, volt }] of exact.entries()) {
    for (const [node, sign] of [
      [plus, 1],
      [minus, -1],
    ] as const) {
      const p = row.get(node);
      if (p === undefined) continue;
      matrix.set(p, free.length + k, sign);
      matrix.set(free.length + k, p, sign);
    }
    right.set(free.length + k, 0, volt);
  }
  const answer = solve(matrix, right);
  // Two answers of the library to the same question with its rows scaled differ as much as its own digits do.
  const scale = Array.from({ length: size }, (_, k) => 1 / Math.max(...matrix.getRow(k).map(Math.abs)));
  const scaled = solve(matrix.clone().mulColumnVector(scale), right.clone().mulColumnVector(scale));
  const most = Math.max(...answer.to1DArray().slice(0, free.length).map(Math.abs));
  const trusted = free.every((_, k) => Math.abs(answer.get(k, 0) - scaled.get(k, 0)) <= 1e-10 * most);
  return { volts: new Map([[net.reference, 0], ...free.map((n, k) => [n, answer.get(k, 0)] as const)]), trusted };
}
