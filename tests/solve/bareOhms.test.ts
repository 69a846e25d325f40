import { describe, expect, test } from 'vitest';
import type { Part } from '../../src/circuit/part.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { bareOhms } from '../../src/solve/bareOhms.ts';
import { sound } from '../circuit/phraseCircuit.ts';

/** Parts on a bench, fastened to nothing. */
const circuit = sound(
  readCircuit(
    `title: Parts on the bench
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  R1: { kind: resistor, resistance: 47 Ω }
  R2: { kind: resistor, resistance: 10 kΩ }
  K1: { kind: relay, coil: 80 Ω, contact: 2 mΩ }
  S2: { kind: multi-switch, states: { "0": [], "1": [30-a], "2": [30-b] } }
  S1:
    kind: key-switch
    contact: 5 mΩ
    positions: { LOCK: { at: 0°, key-out: yes }, ACC: { at: 30° }, ON: { at: 60° }, START: { at: 90°, springs-to: ON } }
    contacts: { 30-75: [22°..70°], 30-15: [48°..95°], 30-50: [80°..95°] }
wires:
  - { from: G1.+, to: R1.1 }
  - { from: G1.-, to: R1.2 }
`,
    'bench.yaml',
    partKinds,
  ),
);
const part = (id: string): Part => circuit.parts.get(id)!;
const series = (id: string, element: string, ohm: number) => ({ part: id, change: { do: 'series', element, ohm } as const });
const openInside = Number.POSITIVE_INFINITY;

test.each([
  ['R1', 'R1.1', 'R1.2', 47],
  ['R1', 'R1.2', 'R1.1', 47],
  ['R2', 'R2.1', 'R2.2', 10_000],
  ['K1', 'K1.86', 'K1.85', 80],
  ['K1', 'K1.30', 'K1.87', openInside],
])('%s reads between %s and %s what it is made of: %d Ω', (id, at, to, ohm) => {
  expect(bareOhms(part(id), [], at, to)).toBeCloseTo(ohm, 6);
});

test('what is amiss in the part itself is read; what hangs on it elsewhere, or is amiss in another part, is not', () => {
  const inside = (ohm: number) => series('R1', '', ohm);
  const element = part('R1').kind.elements(part('R1'), { key: undefined, setting: '', engine: 'stopped', ambient: 20, state: {} })[0]!.id;
  const own = (ohm: number) => ({ ...inside(ohm), change: { ...inside(ohm).change, element } });
  expect(bareOhms(part('R1'), [own(3)], 'R1.1', 'R1.2')).toBeCloseTo(50, 6);
  expect(bareOhms(part('R1'), [own(openInside)], 'R1.1', 'R1.2')).toBe(openInside);
  expect(bareOhms(part('R1'), [{ ...own(3), part: 'R2' }], 'R1.1', 'R1.2')).toBeCloseTo(47, 6);
  const elsewhere = { part: 'R1', change: { do: 'attach', end: 1, terminal: 'R1.2' } as const };
  expect(bareOhms(part('R1'), [elsewhere], 'R1.1', 'R1.2')).toBeCloseTo(47, 6);
});

describe('a switch turned by hand', () => {
  test('a setting closes its own contacts and no other', () => {
    const at = (setting: string, to: string) => bareOhms(part('S2'), [], 'S2.30', `S2.${to}`, { setting });
    for (const [setting, a, b] of [
      ['0', false, false],
      ['1', true, false],
      ['2', false, true],
    ] as const) {
      expect([at(setting, 'a') < 1, at(setting, 'b') < 1]).toEqual([a, b]);
    }
  });
  test('without a setting it stands as it comes', () => {
    expect(bareOhms(part('S2'), [], 'S2.30', 'S2.a')).toBe(openInside);
  });
  test.each([
    [0, []],
    [30, ['75']],
    [47, ['75']],
    [49, ['75', '15']],
    [60, ['75', '15']],
    [71, ['15']],
    [90, ['15', '50']],
  ])('the key switch at %d° joins 30 with %j', (angle, joined) => {
    const closed = ['75', '15', '50'].filter((t) => bareOhms(part('S1'), [], 'S1.30', `S1.${t}`, { angle }) < 1);
    expect(closed).toEqual(joined);
  });
  test('a contact that drops reads what it has, in the places where it closes', () => {
    const worn = [series('S1', '30-15', 0.8)];
    const sound = bareOhms(part('S1'), [], 'S1.30', 'S1.15', { angle: 60 });
    expect(bareOhms(part('S1'), worn, 'S1.30', 'S1.15', { angle: 60 })).toBeCloseTo(sound + 0.8, 6);
    expect(bareOhms(part('S1'), worn, 'S1.30', 'S1.75', { angle: 60 })).toBeCloseTo(
      bareOhms(part('S1'), [], 'S1.30', 'S1.75', { angle: 60 }),
      6,
    );
    expect(bareOhms(part('S1'), worn, 'S1.30', 'S1.15', { angle: 0 })).toBe(openInside);
  });
  test('two outlets are joined through 30', () => {
    const two = bareOhms(part('S1'), [], 'S1.15', 'S1.75', { angle: 60 });
    const one = bareOhms(part('S1'), [], 'S1.30', 'S1.15', { angle: 60 });
    const other = bareOhms(part('S1'), [], 'S1.30', 'S1.75', { angle: 60 });
    expect(two).toBeCloseTo(one + other, 6);
  });
  test.each(['lost motion', 'stays behind', 'spring weak', 'detent worn at ON'])(
    '%s is in the lock: the bare switch, turned by hand, closes where a sound one does',
    (words) => {
      const modes = part('S1').kind.faults(part('S1'), { positions: ['LOCK', 'ACC', 'ON', 'START'], feed: undefined });
      const amiss = modes.find((f) => f.words === words);
      if (!amiss) expect.fail(modes.map((f) => f.words).join(', '));
      const changes = amiss.changes(amiss.detail!.default).map((change) => ({ part: 'S1', change }));
      const closed = (given: typeof changes, angle: number) =>
        ['75', '15', '50'].filter((t) => bareOhms(part('S1'), given, 'S1.30', `S1.${t}`, { angle }) < 1);
      // Not at the very edge of a contact: the hand leaves the switch within a degree.
      const edges = [22, 48, 70, 80];
      for (let angle = 0; angle <= 95; angle++)
        if (edges.every((edge) => Math.abs(edge - angle) > 1)) expect(closed(changes, angle), `${angle}°`).toEqual(closed([], angle));
    },
  );
});

test('what has no shaft is read the same wherever it is said to be turned', () => {
  expect(bareOhms(part('R1'), [], 'R1.1', 'R1.2', { angle: 30 })).toBeCloseTo(47, 6);
  expect(bareOhms(part('R1'), [], 'R1.1', 'R1.2', { setting: 'on' })).toBeCloseTo(47, 6);
});
