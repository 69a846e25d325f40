import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { linearNetwork } from '../../src/solve/linearNetwork.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { quiet } from './exact/madeCircuit.ts';
import { built, sketches } from './exact/randomCircuits.ts';
import { solvedElsewhere } from './exact/solvedElsewhere.ts';

// Hundreds of random circuits: seconds on a busy machine, and no measure of speed.
vi.setConfig({ testTimeout: 120_000 });

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
