import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { filament, steadyDraw } from '../../src/circuit/laws.ts';
import type { Change, Part } from '../../src/circuit/part.ts';
import { linearNetwork } from '../../src/solve/linearNetwork.ts';
import { network, type Setup, SourceLoop } from '../../src/solve/network.ts';
import { amperesInto, amperesThrough, operatingPoint, voltsAt } from '../../src/solve/operatingPoint.ts';
import { memberOf, readingOf } from '../../src/solve/reading.ts';
import { follows, madeCircuit, madePart, ohms, quiet, source } from './exact/madeCircuit.ts';
import { built, ohmIn, type Sketch, sketches } from './exact/randomCircuits.ts';

// Hundreds of random circuits: seconds on a busy machine, and no measure of speed.
vi.setConfig({ testTimeout: 120_000 });

const any = sketches({ points: 12, ohm: { least: 1e-2, most: 1e5 }, supplies: 2, currents: 0, laws: 3 });
const seed = 20261125;

/** Volts of every point of a sketch, with changes to one part. */
function volts(
  sketch: Sketch,
  change?: { part: string; change: Change },
  setup?: Setup,
  circuit: Circuit = built(sketch),
): (number | null | undefined)[] {
  const at = operatingPoint(network(circuit, change && [change], setup), quiet);
  return Array.from({ length: sketch.points }, (_, k) => (k === 0 ? 0 : voltsAt(at, `at.p${k}`)));
}

function same(a: readonly (number | null | undefined)[], b: readonly (number | null | undefined)[]): void {
  for (const [k, v] of a.entries()) {
    if (v === null || v === undefined) expect(b[k]).toBe(v);
    // Newton stops within 1e-11 of a law's own current
    else expect(Math.abs(v - b[k]!)).toBeLessThan(1e-9);
  }
}

describe('a change is what it would be to build the circuit so', () => {
  test('added resistance, fixed resistance, short, draw', () => {
    fc.assert(
      fc.property(any, fc.nat(), fc.nat(), fc.nat(), ohmIn({ least: 1e-2, most: 1e6 }), (sketch, pick, one, other, ohm) => {
        const k = pick % sketch.resistors.length;
        const [a, b] = [one % sketch.points, other % sketch.points];
        const point = (n: number) => (n === 0 ? 'ground' : `at.p${n}`);
        const swapped = (to: number) => ({ ...sketch, resistors: sketch.resistors.map((r, i) => (i === k ? { ...r, ohm: to } : r)) });
        const circuit = built(sketch);
        const changed = (change: Change) => volts(sketch, { part: `R${k}`, change }, undefined, circuit);
        same(changed({ do: 'series', element: '', ohm }), volts(swapped(sketch.resistors[k]!.ohm + ohm)));
        same(changed({ do: 'series', element: '', ohm: Number.POSITIVE_INFINITY }), volts(swapped(Number.POSITIVE_INFINITY)));
        same(changed({ do: 'fix', element: '', ohm }), volts(swapped(ohm)));
        if (a === b) return;
        same(
          changed({ do: 'bridge', from: point(a), to: point(b), ohm }),
          volts({ ...sketch, resistors: [...sketch.resistors, { from: a, to: b, ohm }] }),
        );
        same(
          changed({ do: 'draw', from: point(a), to: point(b), ampere: 0.4 }),
          volts({ ...sketch, laws: [...sketch.laws, { from: a, to: b, law: steadyDraw(0.4), what: '' }] }),
        );
        same(volts(sketch), changed({ do: 'params', patch: {} }));
      }),
      { seed, numRuns: 200 },
    );
  });

  test('resistance in series with a lamp stands between the lamp and its wire', () => {
    const lamp = follows('H', filament(21, 12));
    const healthy = madeCircuit([
      [source('G', 12, 0), 'p', '0'],
      [lamp, 'p', '0'],
    ]);
    const at = operatingPoint(network(healthy, [{ part: 'H', change: { do: 'series', element: '', ohm: 2 } }]), quiet);
    const apart = operatingPoint(
      network(
        madeCircuit([
          [source('G', 12, 0), 'p', '0'],
          [lamp, 'p', 'q'],
          [ohms('R', 2), 'q', '0'],
        ]),
      ),
      quiet,
    );
    expect(amperesThrough(at, 'H')).toBeCloseTo(amperesThrough(apart, 'H'), 9);
    expect(amperesInto(at, 'H.1')).toBeCloseTo(amperesThrough(at, 'H'), 9);
  });

  test('an ideal joint that gains resistance is no joint any more', () => {
    const joint = madePart('W', () => [{ id: '', from: '1', to: '2', ohm: 0 }]);
    const circuit = madeCircuit([
      [source('G', 12, 0), 'p', '0'],
      [joint, 'p', 'a'],
      [ohms('R', 6), 'a', '0'],
    ]);
    const at = (change?: Change) => amperesThrough(operatingPoint(network(circuit, change && [{ part: 'W', change }]), quiet), 'R');
    expect([at(), at({ do: 'series', element: '', ohm: 6 }), at({ do: 'series', element: '', ohm: Number.POSITIVE_INFINITY })]).toEqual([
      2, 1, 0,
    ]);
  });

  test('other parameters, and a wire end on another terminal', () => {
    const adjustable: Part = {
      ...madePart('R', (part) => [{ id: '', from: '1', to: '2', ohm: part.params['ohm'] as number }]),
      params: { ohm: 6 },
    };
    const circuit = madeCircuit([
      [source('G', 12, 0), 'p', '0'],
      [adjustable, 'p', 'a'],
      [ohms('W', 1e-3), 'a', '0'],
      [ohms('S', 6 - 1e-3), 'b', '0'],
    ]);
    const at = (change: Change, part: string) => amperesThrough(operatingPoint(network(circuit, [{ part, change }]), quiet), 'R');
    expect(at({ do: 'params', patch: { ohm: 12 - 1e-3 } }, 'R')).toBeCloseTo(1, 12);
    expect(at({ do: 'attach', end: 2, terminal: 'at.b' }, 'W')).toBeCloseTo(1, 12);
  });
});

describe('what is set up by hand', () => {
  const circuit = madeCircuit([
    [source('G', 12, 0), 'p', '0'],
    [ohms('R', 6), 'p', 'a'],
    [ohms('S', 6), 'a', '0'],
  ]);
  const open: Change = { do: 'series', element: '', ohm: Number.POSITIVE_INFINITY };
  const at = (setup: Partial<Setup>, change?: Change) =>
    operatingPoint(network(circuit, change && [{ part: 'R', change }], { apart: [], bridged: [], swapped: [], ...setup }), quiet);

  test('a part that is out leaves its terminals floating where nothing else holds them', () => {
    expect(voltsAt(at({ apart: ['S'] }), 'at.a')).toBe(12);
    expect(voltsAt(at({ apart: ['R', 'S'] }), 'R.2')).toBeNull();
    expect(voltsAt(at({}), 'nobody.1')).toBeUndefined();
  });

  test('a jumper of 30 mΩ carries what it joins', () => {
    // 30 mΩ is the lead's own resistance (estimate): 12 V over 6 Ω and 30 mΩ beside 6 Ω
    expect(amperesThrough(at({ bridged: [['at.p', 'at.a']] }), 'S')).toBeCloseTo(12 / (6 + 1 / (1 / 0.03 + 1 / 6)), 12);
  });

  test('a swapped part has no faults of its own', () => {
    expect(amperesThrough(at({}, open), 'S')).toBe(0);
    expect(amperesThrough(at({ swapped: ['R'] }, open), 'S')).toBe(1);
  });
});

describe('exact supplies', () => {
  test('two in a row add up, and a resistance across both sees the sum', () => {
    const at = operatingPoint(
      network(
        madeCircuit([
          [source('G1', 6, 0), 'm', '0'],
          [source('G2', 6, 0), 'p', 'm'],
          [ohms('R', 4), 'p', '0'],
        ]),
      ),
      quiet,
    );
    expect([voltsAt(at, 'at.m'), voltsAt(at, 'at.p'), amperesThrough(at, 'R')]).toEqual([6, 12, 3]);
  });

  test('two that disagree are refused, two that agree are one', () => {
    const two = (volt: number) =>
      madeCircuit([
        [source('G1', 12, 0), 'p', '0'],
        [source('G2', volt, 0), 'p', '0'],
        [ohms('R', 4), 'p', '0'],
      ]);
    expect(() => network(two(11))).toThrow(SourceLoop);
    const at = operatingPoint(network(two(12)), quiet);
    expect(amperesThrough(at, 'R')).toBe(3);
    expect(linearNetwork(at)).toEqual({
      reference: 'ground',
      nodes: ['ground', 'G1.1'],
      resistances: [{ from: 'G1.1', to: 'ground', ohm: 4 }],
      sources: [{ plus: 'G1.1', minus: 'ground', volt: 12, ohm: 0 }],
      currents: [],
      volts: { ground: 0, 'G1.1': 12 },
    });
  });
});

describe('an exact source', () => {
  const exact = (volt: number): Part => ({
    ...madePart('G1', () => [], { supply: () => ['1', '2'] }),
    params: { volt },
    kind: {
      ...madePart('G1', () => []).kind,
      elements: (part) => [{ id: '', plus: '1', minus: '2', volt: Number(part.params['volt']), ohm: 0 }],
    },
  });
  const circuit = madeCircuit([
    [exact(12), 'p', '0'],
    [ohms('R1', 4), 'p', '0'],
  ]);
  test('that a fault gives other volts stands with them, and with the same ones as before', () => {
    const at = (volt: number) => operatingPoint(network(circuit, [{ part: 'G1', change: { do: 'params', patch: { volt } } }]), quiet);
    expect([voltsAt(at(12), 'R1.1'), voltsAt(at(9), 'R1.1'), voltsAt(at(12), 'R1.1')]).toEqual([12, 9, 12]);
    expect(amperesThrough(at(9), 'R1')).toBeCloseTo(9 / 4, 12);
  });
  test('beside another fault too', () => {
    const changes = [
      { part: 'R1', change: { do: 'series', element: '', ohm: 2 } },
      { part: 'G1', change: { do: 'params', patch: { volt: 9 } } },
    ] as const;
    expect(amperesThrough(operatingPoint(network(circuit, changes), quiet), 'R1')).toBeCloseTo(9 / 6, 12);
  });
});

test('in a circuit without any source nothing flows, and that is solved', () => {
  const at = operatingPoint(
    network(
      madeCircuit([
        [ohms('R1', 4), 'p', '0'],
        [follows('E1', filament(5, 12)), 'p', '0'],
      ]),
    ),
    quiet,
  );
  expect([at.residual, voltsAt(at, 'R1.1'), amperesThrough(at, 'R1'), amperesThrough(at, 'E1')]).toEqual([0, 0, 0, 0]);
});

test('a part reads volts between its own terminals and the body, and amperes by its own names', () => {
  const circuit = madeCircuit([
    [source('G1', 12, 0), 'p', '0'],
    [ohms('R1', 4), 'p', 'q'],
    [ohms('R2', 8), 'q', '0'],
    [ohms('R3', 1), 'x', 'y'],
  ]);
  const at = operatingPoint(network(circuit), quiet);
  const of = (part: string) => readingOf(at, part);
  // 4 Ω over 8 Ω on 12 V: 8 V at the middle and 1 A, by Ohm's law.
  expect(of('R2').across('1', '2')).toBeCloseTo(8, 12);
  expect(of('R2').across('1', 'ground')).toBeCloseTo(8, 12);
  expect(of('R2').across('ground', '1')).toBeCloseTo(-8, 12);
  expect(of('R1').across('2', 'ground')).toBeCloseTo(8, 12);
  expect([of('R1').amperes(''), of('R1').amperes('no such')]).toEqual([expect.closeTo(1, 12), 0]);
  // What is tied to nothing carries none, nor does a terminal that is not there.
  expect([of('R3').across('1', 'ground'), of('R1').across('9', 'ground'), of('R1').across('1', '9')]).toEqual([0, 0, 0]);
  expect(memberOf(at.network, 'R2')?.part.id).toBe('R2');
  expect(memberOf(at.network, 'R9')).toBeUndefined();
});

test('a network says what is taken out, joined and exchanged in it, whatever was laid out before', () => {
  const circuit = madeCircuit([
    [source('G1', 12, 0.1), 'p', '0'],
    [ohms('R1', 4), 'p', '0'],
    [ohms('R2', 4), 'p', '0'],
  ]);
  const setups: readonly Setup[] = [
    { apart: [], bridged: [], swapped: [] },
    { apart: [], bridged: [], swapped: ['R1'] },
    { apart: ['R1'], bridged: [['R2.1', 'ground']], swapped: ['R2'] },
    { apart: ['R1'], bridged: [['R2.1', 'ground']], swapped: [] },
  ];
  for (const setup of [...setups, ...setups]) expect(network(circuit, [], setup).setup).toEqual(setup);
  const broken = [{ part: 'R1', change: { do: 'series', element: '', ohm: 5 } }] as const;
  for (const setup of setups) expect(network(circuit, broken, setup)).toMatchObject({ setup, changes: broken });
  expect(network(circuit)).toBe(network(circuit));
});
