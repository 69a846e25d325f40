import { describe, expect, test } from 'vitest';
import { filament } from '../../src/circuit/laws.ts';
import type { Change } from '../../src/circuit/part.ts';
import { linearNetwork } from '../../src/solve/linearNetwork.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint, voltsAt } from '../../src/solve/operatingPoint.ts';
import { current, follows, madeCircuit, madePart, ohms, quiet, source } from './exact/madeCircuit.ts';

const told = (...parts: Parameters<typeof madeCircuit>[0]) => linearNetwork(operatingPoint(network(madeCircuit(parts)), quiet));

describe('the network as any other program can solve it again', () => {
  test('a source with its resistance, a resistance and a current; open branches are gone', () => {
    const net = told(
      [source('G1', 12, 0.5), 'a', '0'],
      [ohms('R1', 5.5), 'a', '0'],
      [current('I1', 2), 'a', '0'],
      [ohms('R2', Number.POSITIVE_INFINITY), 'a', '0'],
    );
    expect(net.sources).toEqual([{ plus: net.resistances[0]!.from, minus: net.reference, volt: 12, ohm: 0.5 }]);
    expect(net.resistances.map((r) => r.ohm)).toEqual([expect.closeTo(5.5, 12)]);
    expect(net.currents).toEqual([{ into: net.resistances[0]!.from, outOf: net.reference, ampere: 2 }]);
    // (12/0.5 + 2) / (1/0.5 + 1/5.5) by Millman's theorem (Millman 1940, from memory).
    expect(net.volts[net.resistances[0]!.from]).toBeCloseTo(26 / (2 + 1 / 5.5), 10);
    expect(net.nodes).toHaveLength(2);
  });
  test('what has no way to the reference is left out, its exact supplies too', () => {
    const island = told(
      [source('G1', 12, 0.5), 'a', '0'],
      [ohms('R1', 10), 'a', '0'],
      [ohms('R2', 10), 'c', 'd'],
      [source('G2', 6, 1), 'c', 'd'],
      [source('G3', 3, 0), 'e', 'f'],
      [ohms('R3', 7), 'e', 'f'],
    );
    expect(island.resistances.map((r) => r.ohm)).toEqual([expect.closeTo(10, 12)]);
    expect(island.sources.map((s) => s.volt)).toEqual([12]);
  });
  test('a current that is forced into an island has no way back: it is left out with the island, either way round', () => {
    for (const ends of [
      ['0', 'c'],
      ['c', '0'],
    ] as const) {
      const net = told(
        [source('G1', 12, 0.5), 'a', '0'],
        [ohms('R1', 10), 'a', '0'],
        [ohms('R2', 10), 'c', 'd'],
        [current('I1', 2), ...ends],
      );
      expect(net.currents).toEqual([]);
      expect(net.resistances.map((r) => r.ohm)).toEqual([expect.closeTo(10, 12)]);
      expect(net.nodes).toHaveLength(2);
    }
  });
  test('an exact supply stands with 0 Ω, beside one with its own resistance, and both ends of it have its volts', () => {
    const net = told([source('G1', 12, 0), 'a', '0'], [ohms('R1', 6), 'a', 'b'], [source('G2', 6, 2), 'b', '0'], [ohms('R2', 4), 'b', '0']);
    expect(net.sources.map((s) => [s.volt, s.ohm]).sort()).toEqual([
      [12, 0],
      [6, expect.closeTo(2, 12)],
    ]);
    expect(net.sources.find((s) => s.ohm === 0)).toMatchObject({ minus: net.reference });
    expect(net.volts[net.sources.find((s) => s.ohm === 0)!.plus]).toBe(12);
    expect(net.volts[net.reference]).toBe(0);
    // (12/6 + 6/2) / (1/6 + 1/2 + 1/4) by Millman's theorem (from memory).
    expect(Object.values(net.volts).some((v) => Math.abs(v - 5 / (1 / 6 + 1 / 2 + 1 / 4)) < 1e-9)).toBe(true);
    expect(net.nodes).toHaveLength(3);
  });
  test('a law stands as its slope and the current that is left over', () => {
    const law = filament(60, 12);
    const lit = told([source('G1', 12, 0.1), 'a', '0'], [follows('E1', law), 'a', '0']);
    const at = lit.volts[lit.resistances[0]!.from]!;
    expect(1 / lit.resistances[0]!.ohm).toBeCloseTo(law(at).siemens, 9);
    expect(lit.currents).toEqual([
      { into: lit.reference, outOf: lit.resistances[0]!.from, ampere: expect.closeTo(law(at).ampere - at * law(at).siemens, 9) },
    ]);
    expect(at).toBeCloseTo(12 - 0.1 * law(at).ampere, 9);
  });
  test('of exact supplies that agree around a loop one is left out; ideal joints go under one name', () => {
    const agreeing = told(
      [source('G1', 12, 0), 'a', '0'],
      [source('G2', 12, 0), 'b', '0'],
      [ohms('J1', 0), 'a', 'b'],
      [ohms('R1', 3), 'b', '0'],
    );
    expect(agreeing.sources).toHaveLength(1);
    expect(agreeing.nodes).toHaveLength(2);
  });
});

test('0 V is the body where anything reaches it, from within a part too; else the minus of the first supply', () => {
  const housed = madePart('H1', () => [{ id: '', from: '1', to: 'ground', ohm: 5 }]);
  const through = madePart('X1', () => [{ id: '', from: 'ground', to: '2', ohm: 1 }]);
  const grounded = network(
    madeCircuit([
      [source('G1', 12, 0), 'p', 'm'],
      [housed, 'p', 'free'],
      [through, 'free2', 'm'],
    ]),
  );
  expect(grounded.reference).toBe('ground');
  const at = operatingPoint(grounded, quiet);
  expect(voltsAt(at, 'H1.1')).toBeCloseTo(10, 9);
  expect(voltsAt(at, 'G1.2')).toBeCloseTo(-2, 9);
  const floating = network(
    madeCircuit([
      [source('G1', 12, 0), 'p', 'm'],
      [ohms('R1', 5), 'p', 'm'],
    ]),
  );
  expect(floating.reference).toBe('G1.2');
  expect(voltsAt(operatingPoint(floating, quiet), 'R1.1')).toBeCloseTo(12, 9);
});

/** Two elements in a row, the second ideal: what a fault makes of it decides whether the sound layout still serves. */
const twoInOne = (second_ohm: number) =>
  madePart('X1', () => [
    { id: 'a', from: '1', to: 'm', ohm: 2 },
    { id: 'b', from: 'm', to: '2', ohm: second_ohm },
  ]);
const circuit = madeCircuit([
  [source('G1', 12, 1), 'p', '0'],
  [twoInOne(0), 'p', 'q'],
  [ohms('R1', 3), 'q', '0'],
  [source('G2', 4, 0), 'r', '0'],
  [ohms('R2', 5), 'r', 'q'],
]);
const volts = (changes: readonly { part: string; change: Change }[], at: string, of = circuit) =>
  voltsAt(operatingPoint(network(of, changes), quiet), at);

describe('a fault over the sound layout', () => {
  const sound = network(circuit);
  test('keeps the layout where only a number is another', () => {
    const faulty = network(circuit, [{ part: 'R1', change: { do: 'series', element: '', ohm: 2 } }]);
    expect(faulty.nodeOf).toBe(sound.nodeOf);
    expect(faulty.members[faulty.other![0]!]!.part.id).toBe('R1');
    expect(faulty.pattern).toBe(sound.pattern);
  });
  test('keeps the nodes where it adds a branch, and works out a pattern of its own', () => {
    const leak = network(circuit, [{ part: 'R1', change: { do: 'bridge', from: 'R1.1', to: 'ground', ohm: 3 } }]);
    expect(leak.nodeOf).toBe(sound.nodeOf);
    expect(leak.branches).toHaveLength(sound.branches.length + 1);
    expect(leak.branchOf.get('R1.~bridge0')).toBe(sound.branches.length);
    expect(leak.pattern).not.toBe(sound.pattern);
    expect(leak.pattern).toBe(leak.pattern);
  });
  test('two that join the same nodes share a pattern, as any two layouts of one form do; others have their own', () => {
    const leak = (ohm: number, to = 'ground') => network(circuit, [{ part: 'R1', change: { do: 'bridge', from: 'R1.1', to, ohm } }]);
    expect(leak(3).pattern).toBe(leak(4).pattern);
    expect(leak(3).pattern).not.toBe(leak(3, 'X1.1').pattern);
    const moved = (ohm: number) =>
      network(circuit, [
        { part: 'R2', change: { do: 'attach', end: 2, terminal: 'ground' } },
        { part: 'R1', change: { do: 'series', element: '', ohm } },
      ]);
    expect(moved(1).pattern).toBe(moved(2).pattern);
  });
  test.each<readonly [string, { part: string; change: Change }]>([
    ['a joint that gains resistance', { part: 'X1', change: { do: 'series', element: 'b', ohm: 1 } }],
    ['a joint added', { part: 'R1', change: { do: 'bridge', from: 'R1.1', to: 'R1.2', ohm: 0 } }],
    ['a terminal that nothing is fastened to', { part: 'R1', change: { do: 'bridge', from: 'R1.1', to: 'nobody.1', ohm: 2 } }],
    ['a resistance that becomes a joint', { part: 'R2', change: { do: 'fix', element: '', ohm: 0 } }],
    ['a wire end moved', { part: 'R2', change: { do: 'attach', end: 2, terminal: 'ground' } }],
  ])('is laid out anew for %s', (_what, change) => {
    expect(network(circuit, [change]).nodeOf).not.toBe(sound.nodeOf);
    const beside = { part: 'R1', change: { do: 'series', element: '', ohm: 2 } } as const;
    expect(network(circuit, [beside, change]).nodeOf).not.toBe(sound.nodeOf);
    expect(network(circuit, [change, beside]).nodeOf).not.toBe(sound.nodeOf);
  });
  test('says what the circuit built so would say', () => {
    // p through 1 Ω from 12 V, X1 2 Ω to q; q to the body by 3 Ω, to 4 V by 5 Ω.
    const q = (seriesOhm: number, bodyOhm: number) => (12 / seriesOhm + 4 / 5) / (1 / seriesOhm + 1 / bodyOhm + 1 / 5);
    expect(volts([], 'R1.1')).toBeCloseTo(q(3, 3), 10);
    expect(volts([{ part: 'X1', change: { do: 'series', element: 'b', ohm: 1 } }], 'R1.1')).toBeCloseTo(q(4, 3), 10);
    expect(volts([{ part: 'X1', change: { do: 'series', element: 'a', ohm: 1 } }], 'R1.1')).toBeCloseTo(q(4, 3), 10);
    expect(volts([{ part: 'X1', change: { do: 'fix', element: 'a', ohm: 5 } }], 'R1.1')).toBeCloseTo(q(6, 3), 10);
    expect(volts([{ part: 'R1', change: { do: 'bridge', from: 'R1.1', to: 'ground', ohm: 3 } }], 'R1.1')).toBeCloseTo(q(3, 1.5), 10);
    expect(
      volts(
        [
          { part: 'X1', change: { do: 'series', element: 'a', ohm: 1 } },
          { part: 'X1', change: { do: 'series', element: 'b', ohm: 2 } },
        ],
        'R1.1',
      ),
    ).toBeCloseTo(q(6, 3), 10);
    expect(volts([{ part: 'nobody', change: { do: 'series', element: '', ohm: 1 } }], 'R1.1')).toBeCloseTo(q(3, 3), 10);
  });
  test('forty-eight set-ups are kept; the one not used longest goes first', () => {
    const setup = (k: number) => ({ apart: [], bridged: [['R1.1', `R${k}.1`]] as [string, string][], swapped: [] });
    const own = madeCircuit([
      [source('G1', 12, 1), 'p', '0'],
      ...Array.from({ length: 60 }, (_, k) => [ohms(`R${k}`, 3), 'p', '0'] as const),
    ]);
    const first = network(own, [], setup(0));
    for (let k = 1; k < 48; k++) network(own, [], setup(k));
    expect(network(own, [], setup(0))).toBe(first);
    const second = network(own, [], setup(1));
    expect(network(own, [], setup(0))).toBe(first);
    network(own, [], setup(50));
    expect(network(own, [], setup(1))).toBe(second);
    for (let k = 2; k < 50; k++) network(own, [], setup(k));
    expect(network(own, [], setup(0))).not.toBe(first);
    // Forty-eight after it are just one too many.
    const third = network(own, [], setup(59));
    for (let k = 1; k <= 48; k++) network(own, [], setup(k));
    expect(network(own, [], setup(59))).not.toBe(third);
  });
});
