import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { network } from '../../src/solve/network.ts';
import { amperesThrough, type OperatingPoint, operatingPoint, voltsAt } from '../../src/solve/operatingPoint.ts';
import { quiet } from './exact/madeCircuit.ts';
import { built, type Sketch, sketches } from './exact/randomCircuits.ts';

// Hundreds of random circuits: seconds on a busy machine, and no measure of speed.
vi.setConfig({ testTimeout: 120_000 });

const seed = 20261125;
const linear = sketches({ points: 20, ohm: { least: 1e-3, most: 1e6 }, supplies: 3, currents: 2, laws: 0 });
const anyCircuit = sketches({ points: 20, ohm: { least: 1e-3, most: 1e6 }, supplies: 3, currents: 0, laws: 6 });

const solved = (sketch: Sketch) => operatingPoint(network(built(sketch)), quiet);
const pointVolts = (at: OperatingPoint, points: number, name = (k: number) => `p${k}`) =>
  Array.from({ length: points }, (_, k) => (k === 0 ? 0 : voltsAt(at, `at.${name(k)}`)!));
const largest = (list: readonly number[]) => Math.max(...list.map(Math.abs));
/** Largest difference over the largest value. */
const apart = (a: readonly number[], b: readonly number[]) => largest(a.map((x, k) => x - b[k]!)) / (largest(a) || 1);

describe('linear circuits', () => {
  test('superposition: the sources together do what they do one by one', () => {
    fc.assert(
      fc.property(linear, (sketch) => {
        const alone = [
          ...sketch.supplies.map((_, k) => ({
            ...sketch,
            supplies: sketch.supplies.map((s, i) => (i === k ? s : { ...s, volt: 0 })),
            currents: [],
          })),
          ...sketch.currents.map((c) => ({ ...sketch, supplies: sketch.supplies.map((s) => ({ ...s, volt: 0 })), currents: [c] })),
        ].map((one) => pointVolts(solved(one), sketch.points));
        const sum = Array.from({ length: sketch.points }, (_, k) => alone.reduce((s, volts) => s + volts[k]!, 0));
        // the parts may be larger than their sum, and each has its own rounding: 12 digits of the largest part
        const scale = largest(alone.flat()) || 1;
        expect(largest(pointVolts(solved(sketch), sketch.points).map((v, k) => v - sum[k]!)) / scale).toBeLessThan(1e-12);
      }),
      { seed, numRuns: 300 },
    );
  });

  // One supply: two like ones side by side share currents that hang on the last digits of 21 V over 10 mΩ.
  test('scaling all ohms leaves the voltages alone and divides the currents', () => {
    fc.assert(
      fc.property(
        sketches({ points: 20, ohm: { least: 1e-3, most: 1e6 }, supplies: 1, currents: 0, laws: 0 }),
        fc.constantFrom(1e-3, 7, 1e3),
        (sketch, by) => {
          const scaled = {
            ...sketch,
            resistors: sketch.resistors.map((r) => ({ ...r, ohm: r.ohm * by })),
            supplies: sketch.supplies.map((s) => ({ ...s, ohm: s.ohm * by })),
          };
          const [before, after] = [solved(sketch), solved(scaled)];
          expect(apart(pointVolts(before, sketch.points), pointVolts(after, sketch.points))).toBeLessThan(1e-12);
          expect(
            apart(
              [...before.amperes],
              [...after.amperes].map((i) => i * by),
            ),
          ).toBeLessThan(1e-12);
        },
      ),
      { seed, numRuns: 300 },
    );
  });

  // Of linear circuits only: with a lamp or a diode in it, the same change can raise the current a little.
  test('raising one resistance never lowers the resistance that the supply sees', () => {
    fc.assert(
      fc.property(
        sketches({ points: 20, ohm: { least: 1e-3, most: 1e6 }, supplies: 1, currents: 0, laws: 0 }),
        fc.nat(),
        fc.constantFrom(1.01, 10, 1e6, Number.POSITIVE_INFINITY),
        (sketch, pick, factor) => {
          const real = { ...sketch, supplies: sketch.supplies.map((s) => ({ ...s, ohm: 0.006 })) };
          const one = pick % real.resistors.length;
          const raised = { ...real, resistors: real.resistors.map((r, k) => (k === one ? { ...r, ohm: r.ohm * factor } : r)) };
          const before = amperesThrough(solved(real), 'G0');
          expect(amperesThrough(solved(raised), 'G0')).toBeLessThanOrEqual(before + 1e-9 * Math.abs(before));
        },
      ),
      { seed, numRuns: 300 },
    );
  });
});

describe('any circuit, lamps and diodes in it', () => {
  test('energy balance: what the supplies give, the rest takes', () => {
    fc.assert(
      fc.property(anyCircuit, (sketch) => {
        const ideal = { ...sketch, supplies: sketch.supplies.map((s) => ({ ...s, ohm: s.ohm || 0.01 })) };
        const at = solved(ideal);
        const volts = pointVolts(at, sketch.points);
        const given = ideal.supplies.reduce(
          (w, s, k) => w + s.volt * amperesThrough(at, `G${k}`) - s.ohm * amperesThrough(at, `G${k}`) ** 2,
          0,
        );
        const taken =
          ideal.resistors.reduce((w, r, k) => w + r.ohm * amperesThrough(at, `R${k}`) ** 2, 0) +
          ideal.laws.reduce((w, l, k) => w + (volts[l.from]! - volts[l.to]!) * amperesThrough(at, `E${k}`), 0);
        const most = ideal.supplies.reduce((w, s, k) => w + Math.abs(s.volt * amperesThrough(at, `G${k}`)), 0);
        expect(Math.abs(given - taken)).toBeLessThanOrEqual(1e-9 * most);
      }),
      { seed, numRuns: 300 },
    );
  });

  test('no node outside the range of its feeds', () => {
    fc.assert(
      fc.property(anyCircuit, (sketch) => {
        const highest = Math.max(...sketch.supplies.map((s) => s.volt));
        for (const volts of pointVolts(solved(sketch), sketch.points)) {
          expect(volts).toBeGreaterThanOrEqual(-1e-9 * highest);
          expect(volts).toBeLessThanOrEqual(highest * (1 + 1e-9));
        }
      }),
      { seed, numRuns: 300 },
    );
  });

  test('renaming and reordering change nothing', () => {
    fc.assert(
      fc.property(anyCircuit, fc.nat(), (sketch, turn) => {
        const name = (letter: string, k: number) => `${letter}${(k * 7 + turn) % 1009}x`;
        const shuffled = <T>(list: readonly T[]) =>
          [...list]
            .map((item, k) => ({ item, key: (k * 37 + turn) % 101 }))
            .sort((a, b) => a.key - b.key)
            .map((x) => x.item);
        const other = operatingPoint(network(built(sketch, name, shuffled)), quiet);
        // Newton stops within 1e-11 of a law's current, by another way from each order
        expect(
          apart(
            pointVolts(solved(sketch), sketch.points),
            pointVolts(other, sketch.points, (k) => name('p', k)),
          ),
        ).toBeLessThan(1e-10);
      }),
      { seed, numRuns: 300 },
    );
  });

  test('a solve leaves no trace: the same question gives the same bits whatever was asked between', () => {
    fc.assert(
      fc.property(anyCircuit, (sketch) => {
        const circuit = built(sketch);
        const first = operatingPoint(network(circuit), quiet);
        operatingPoint(network(circuit, [{ part: 'R0', change: { do: 'series', element: '', ohm: Number.POSITIVE_INFINITY } }]), quiet);
        const again = operatingPoint(network(circuit), quiet);
        expect([again.nodeVolts, again.amperes]).toEqual([first.nodeVolts, first.amperes]);
      }),
      { seed, numRuns: 200 },
    );
  });
});
