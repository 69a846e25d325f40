import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { filament, junction, steadyDraw, zenerJunction } from '../../src/circuit/laws.ts';
import { network } from '../../src/solve/network.ts';
import { amperesThrough, operatingPoint, voltsAt } from '../../src/solve/operatingPoint.ts';
import { current, follows, madeCircuit, ohms, quiet, source } from './exact/madeCircuit.ts';
import { built, sketches } from './exact/randomCircuits.ts';

// Hundreds of random circuits: seconds on a busy machine, and no measure of speed.
vi.setConfig({ testTimeout: 120_000 });

const seed = 20261125;

/** Bound on the iterations from cold; the solver itself would go on to 200. */
const few = 40;

test('2000 random circuits of lamps, motors, draws, diodes and Zeners settle from cold, residual 1e-9 or less', () => {
  let [worst, most] = [0, 0];
  fc.assert(
    fc.property(sketches({ points: 24, ohm: { least: 1e-3, most: 1e5 }, supplies: 3, currents: 0, laws: 20 }), (sketch) => {
      const { residual, iterations } = operatingPoint(network(built(sketch)), quiet);
      [worst, most] = [Math.max(worst, residual), Math.max(most, iterations)];
    }),
    { seed, numRuns: 2000 },
  );
  expect(worst).toBeLessThanOrEqual(1e-9);
  expect(most).toBeLessThanOrEqual(few);
});

describe('hard cases', () => {
  const string = (many: number, volt: number) =>
    madeCircuit([
      [source('G', volt, 0.01), 'p', '0'],
      [ohms('R', 1), 'p', 'a0'],
      ...Array.from(
        { length: many },
        (_, k) => [follows(`D${k}`, junction(0.3 + 0.1 * (k % 7), 0.01)), `a${k}`, k === many - 1 ? '0' : `a${k + 1}`] as const,
      ),
    ]);
  const both = (forward: number, volt: number) =>
    madeCircuit([
      [source('G', volt, 0.01), 'p', '0'],
      [ohms('R', 10), 'p', 'a'],
      [follows('D1', junction(forward, 0.001)), 'a', '0'],
      [follows('D2', junction(forward, 0.001)), '0', 'a'],
    ]);
  const bridge = (volt: number) =>
    madeCircuit([
      [source('G', volt, 0.1), 'p', 'n'],
      [follows('D1', junction(0.6, 0.02)), 'p', 'a'],
      [follows('D2', junction(0.6, 0.02)), 'n', 'a'],
      [follows('D3', junction(0.6, 0.02)), '0', 'p'],
      [follows('D4', junction(0.6, 0.02)), '0', 'n'],
      [follows('H', filament(21, 12)), 'a', '0'],
    ]);
  const many = (count: number) =>
    madeCircuit([
      [source('G', 12.6, 0.006), 'p', '0'],
      ...Array.from({ length: count }, (_, k) => [
        [ohms(`R${k}`, 5 + ((k * 37) % 900)), 'p', `a${k}`] as const,
        [follows(`D${k}`, junction(0.3 + ((k * 13) % 40) / 10, 0.05)), `a${k}`, '0'] as const,
        [follows(`H${k}`, filament(1.2 + (k % 5) * 5, 12)), `a${k}`, '0'] as const,
        [follows(`A${k}`, steadyDraw(0.004 * (1 + (k % 9)))), `a${k}`, '0'] as const,
      ]).flat(),
    ]);
  const cases = [
    { title: 'one diode at 12 V', circuit: string(1, 12) },
    { title: 'a string of 60 diodes at 120 V', circuit: string(60, 120) },
    { title: 'a string of 60 diodes with no more than their leak', circuit: string(60, 1) },
    { title: 'a string of 30 diodes the wrong way round', circuit: string(30, -400) },
    { title: 'two diodes back to back beside each other', circuit: both(0.6, 12) },
    { title: 'the same with a drive of 100 kV', circuit: both(0.6, 1e5) },
    { title: 'the same with a drive of a microvolt', circuit: both(0.6, 1e-6) },
    { title: 'a bridge of four diodes', circuit: bridge(14) },
    { title: 'a bridge fed the other way round', circuit: bridge(-14) },
    { title: '200 branches of lamp, diode and draw, each with a knee of its own', circuit: many(200) },
  ];
  test.each(cases)('$title', ({ circuit }) => {
    const { residual, iterations } = operatingPoint(network(circuit), quiet);
    expect(residual).toBeLessThanOrEqual(1e-9);
    expect(iterations).toBeLessThanOrEqual(few);
  });

  test('a Zener holds its voltage over six decades of current', () => {
    for (const ohm of [1, 1e2, 1e4, 1e6]) {
      const at = operatingPoint(
        network(
          madeCircuit([
            [source('G', 24, 0.01), 'p', '0'],
            [ohms('R', ohm), 'p', 'a'],
            [follows('V', zenerJunction(0.6, 13, 0.05)), '0', 'a'],
          ]),
        ),
        quiet,
      );
      expect(at.residual).toBeLessThanOrEqual(1e-9);
      // softened knee: 0.115 V less for each decade of current below 1 A, and 0.05 Ω times the current on top
      expect(voltsAt(at, 'at.a')).toBeGreaterThan(12);
      expect(voltsAt(at, 'at.a')).toBeLessThan(13.8);
    }
  });

  test('laws that pull against each other cannot keep a circuit from its solution: 100 A through a diode that leaks 1 nS', () => {
    const at = operatingPoint(
      network(
        madeCircuit([
          [current('I', 100), 'a', '0'],
          [follows('D', junction(0.6, 0.001)), '0', 'a'],
        ]),
      ),
      quiet,
    );
    expect(at.residual).toBeLessThanOrEqual(1e-9);
    expect(amperesThrough(at, 'D')).toBeCloseTo(-100, 6);
  });
});

describe('what has no solution says so', () => {
  test('a current with no way back leaves a residual of 1, and Newton stops', () => {
    const at = operatingPoint(
      network(
        madeCircuit([
          [current('I', 2), 'a', 'b'],
          [ohms('R', 10), 'b', '0'],
          [ohms('S', 10), 'c', '0'],
        ]),
      ),
      quiet,
    );
    expect(at.residual).toBe(1);
  });

  test('2 A forced through a module that never takes more than 0.3 A: bounded, and not called solved', () => {
    const at = operatingPoint(
      network(
        madeCircuit([
          [current('I', 2), 'a', '0'],
          [follows('A', steadyDraw(0.3)), 'a', '0'],
        ]),
      ),
      quiet,
    );
    expect(at.iterations).toBeLessThanOrEqual(200);
    expect(at.residual).toBeGreaterThan(1e-9);
  });
});
