import fc from 'fast-check';
import { Matrix, solve } from 'ml-matrix';
import { expect, test, vi } from 'vitest';
import { type LinearNetwork, linearNetwork } from '../../src/solve/linearNetwork.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { quiet } from './exact/madeCircuit.ts';
import { built, sketches } from './exact/randomCircuits.ts';

// Hundreds of random circuits: seconds on a busy machine, and no measure of speed.
vi.setConfig({ testTimeout: 120_000 });

/**
 * Volts of an exported network by modified nodal analysis with a general dense solver: a row for each node, and one
 * for the current of each exact source. Nothing of it is shared with the program.
 */
function solvedElsewhere(net: LinearNetwork): { readonly volts: Map<string, number>; readonly trusted: boolean } {
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

function compare(wanted: Parameters<typeof sketches>[0], runs: number): { trusted: number; worst: number } {
  const seen = { trusted: 0, worst: 0 };
  fc.assert(
    fc.property(sketches(wanted), (sketch) => {
      const net = linearNetwork(operatingPoint(network(built(sketch)), quiet));
      const { volts, trusted } = solvedElsewhere(net);
      if (!trusted) return;
      seen.trusted++;
      const most = Math.max(...Object.values(net.volts).map(Math.abs));
      for (const [node, v] of Object.entries(net.volts)) seen.worst = Math.max(seen.worst, Math.abs(volts.get(node)! - v) / (most || 1));
    }),
    { seed: 20261125, numRuns: runs },
  );
  return seen;
}

test('1000 random circuits: a general-purpose dense solver finds the same voltages to 1e-9', () => {
  const { trusted, worst } = compare({ points: 30, ohm: { least: 1e-2, most: 1e4 }, supplies: 3, currents: 2, laws: 0 }, 1000);
  expect(worst).toBeLessThan(1e-9);
  expect(trusted).toBeGreaterThan(950);
});

test('500 random circuits with lamps, motors and diodes: the exported linear network has the same voltages to 1e-9', () => {
  const { trusted, worst } = compare({ points: 20, ohm: { least: 1e-2, most: 1e4 }, supplies: 3, currents: 0, laws: 6 }, 500);
  expect(worst).toBeLessThan(1e-9);
  expect(trusted).toBeGreaterThan(400);
});
