import { expect, test } from 'vitest';
import { changesOf, type Fault, worldsOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { engineRow, type PositionTable, positionTable } from '../../src/solve/positionTable.ts';
import { sound } from '../circuit/phraseCircuit.ts';
import { circuitOf } from '../report/madeCircuit.ts';

type Made = ReturnType<typeof circuitOf>;
const made = (parts: string, wires: string, more = '') =>
  circuitOf(`title: Made\nparts:\n  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }\n${parts}\nwires:\n${wires}\n${more}`);
const real = 'area: 1 mm², length: 1 m';
const faults = (circuit: Made, ...phrases: string[]): readonly Fault[] => phrases.map((p) => sound(readFault(p, circuit)));
const tableOf = (circuit: Made, ...phrases: string[]): PositionTable => positionTable(circuit, worldsOf(faults(circuit, ...phrases)));
const row = (table: PositionTable, id: string) => table.rows.find((r) => r.id === id)!.cells;
const verdicts = (table: PositionTable, id: string) => row(table, id).map((c) => `${c.position} ${c.verdict}`);

const key = `  S1:
    kind: key-switch
    positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 40° }, START: { at: 80°, springs-to: ON } }
    contacts: { 30-15: [30°..90°], 30-75: [30°..60°], 30-50: [70°..90°] }`;
const keyWires = `  - { from: G1.-, to: ground }
  - { id: W1, from: G1.+, to: S1.30, ${real} }`;
/** H1 in ON and START, H2 on the terminal asked for, both through the fuse before the key switch. */
const twoLamps = (rating: string, second: '50' | '75') =>
  made(
    `${key}
  F1: { kind: fuse, rating: ${rating} }
  H1: { kind: lamp, power: 21 W }
  H2: { kind: lamp, power: 10 W }`,
    `  - { from: G1.-, to: ground }
  - { from: G1.+, to: F1.1 }
  - { id: W1, from: F1.2, to: S1.30, ${real} }
  - { id: W2, from: S1.15, to: H1.1, ${real} }
  - { id: W3, from: H1.2, to: ground, ${real} }
  - { id: W4, from: S1.${second}, to: H2.1, ${real} }
  - { id: W5, from: H2.2, to: ground, ${real} }`,
  );

test('a circuit without a key switch has the one position `as it is`', () => {
  const circuit = made(
    '  S2: { kind: switch }\n  H1: { kind: lamp, power: 5 W }',
    '  - { from: G1.+, to: S2.1 }\n  - { from: S2.2, to: H1.1 }\n  - { from: H1.2, to: G1.- }\n  - { from: G1.-, to: ground }',
  );
  const table = tableOf(circuit);
  expect(table.positions).toEqual([{ name: 'as it is', angle: 0, from: 0, to: 0, detent: true, key: { angle: 0, came: 'up', in: true } }]);
  expect(table.rows).toHaveLength(1);
  expect(table.rows[0]).toMatchObject({ id: 'H1', name: 'lamp', needs: { S2: 'on' } });
  expect(verdicts(table, 'H1')).toEqual(['as it is works']);
  expect([table.warnings, table.chatters]).toEqual([[], []]);
});

test('positions that no spring returns to differently have no column of their own', () => {
  expect(tableOf(twoLamps('8 A', '75')).positions.map((p) => p.name)).toEqual(['OFF', 'ON', 'START']);
});

test('of an overload in several positions the worst is told, with its position, whichever comes first', () => {
  for (const [second, where] of [
    ['75', 'ON'],
    ['50', 'START'],
  ] as const) {
    const { warnings } = tableOf(twoLamps('2 A', second));
    expect(warnings.map((w) => [w.element, w.code, w.position])).toEqual([['F1', 'over-rating', where]]);
    // 31 W at 12 V is 2.6 A, a little less with what the wiring takes; the 21 W alone would be over 1.6 A too.
    expect(warnings[0]!.value).toBeGreaterThan(2.4);
    expect(warnings[0]!.value).toBeLessThan(2.6);
  }
});

test('of a fault that comes and goes the commoner world is told, the other beside it with its share, whichever is named first', () => {
  const circuit = twoLamps('8 A', '75');
  for (const [share, main, other] of [
    [30, 'works', 'dead'],
    [70, 'dead', 'works'],
  ] as const) {
    const table = tableOf(circuit, `W2 comes and goes ${share} %`);
    const on = row(table, 'H1').find((c) => c.position === 'ON')!;
    expect(on).toMatchObject({ verdict: main, changed: true, healthy: { verdict: 'works' } });
    expect(on.sometimes).toEqual({ verdict: other, share: expect.closeTo(0.3, 12) });
    expect(row(table, 'H1').find((c) => c.position === 'OFF')!).toMatchObject({ verdict: 'dead', changed: false });
    expect(row(table, 'H1').find((c) => c.position === 'OFF')!.sometimes).toBeUndefined();
  }
});

test('worlds may come in any order: the larger share is the main one', () => {
  const circuit = twoLamps('8 A', '75');
  const open = changesOf(faults(circuit, 'W2 open'));
  for (const share of [0.3, 0.7]) {
    const worlds = [
      { share, changes: open },
      { share: 1 - share, changes: [] },
    ];
    const cells = [worlds, [...worlds].reverse()].map((w) => row(positionTable(circuit, w), 'H1').find((c) => c.position === 'ON')!);
    expect(cells.map((c) => c.verdict)).toEqual(share < 0.5 ? ['works', 'works'] : ['dead', 'dead']);
    for (const c of cells) expect(c.sometimes?.share).toBeCloseTo(0.3, 12);
  }
});

test('a current that comes by a way of its own is marked, one that only grew less on its usual way is not', () => {
  const circuit = made(
    `${key}
  H1: { kind: lamp, power: 21 W }
  H2: { kind: lamp, power: 10 W }`,
    `${keyWires}
  - { id: W2, from: S1.15, to: H1.1, ${real} }
  - { id: W3, from: H1.2, to: ground, ${real} }
  - { id: W4, from: G1.+, to: H2.1, ${real} }
  - { id: W5, from: H2.2, to: ground, ${real} }`,
  );
  const ways = (...phrases: string[]) => row(tableOf(circuit, ...phrases), 'H1').map((c) => [c.position, c.verdict, c.otherWay]);
  expect(ways()).toEqual([
    ['OFF', 'dead', false],
    ['ON', 'works', false],
    ['START', 'works', false],
  ]);
  expect(ways('W2 3 Ω').map(([, , other]) => other)).toEqual([false, false, false]);
  expect(ways('W2 short to feed')).toEqual([
    ['OFF', 'works', true],
    ['ON', 'works', true],
    ['START', 'works', true],
  ]);
});

test('a current that turns round on a usual way is another way, and so is one that only returns by another', () => {
  const circuit = made(
    `${key}
  XE1: { kind: ground-point, on: body }
  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 21 W }
  H3: { kind: lamp, power: 21 W }`,
    `  - { id: W6, from: G1.-, to: ground, ${real} }
  - { id: W7, from: S1.50, to: H3.1, ${real} }
  - { id: W8, from: H3.2, to: ground, ${real} }
  - { id: W1, from: G1.+, to: S1.30, ${real} }
  - { id: W2, from: S1.15, to: H1.1, ${real} }
  - { id: W3, from: H1.2, to: XE1, ${real} }
  - { id: W4, from: S1.50, to: H2.1, ${real} }
  - { id: W5, from: H2.2, to: XE1, ${real} }`,
  );
  // With the common ground point off, the small lamp returns backwards through the cold filaments of the others.
  // In START those two are fed themselves, and it has the battery's plus on both sides.
  const lost = tableOf(circuit, 'XE1 open');
  expect(row(lost, 'H1').map((c) => [c.position, c.verdict, c.otherWay])).toEqual([
    ['OFF', 'dead', false],
    ['ON', 'works', true],
    ['START', 'dead', false],
  ]);
});

test('an engine row says what the starter and then a turning engine do, and is never said to be fed another way', () => {
  const circuit = made(
    `${key}
  M1: { kind: heater, resistance: 1 Ω }
  T1: { kind: heater, resistance: 10 Ω }`,
    `${keyWires}
  - { id: W2, from: S1.50, to: M1.1, ${real} }
  - { id: W3, from: M1.2, to: ground, ${real} }
  - { id: W4, from: S1.15, to: T1.1, ${real} }
  - { id: W5, from: T1.2, to: ground, ${real} }`,
    'engine: { crank: M1, spark: [T1], fuel: [] }',
  );
  expect(verdicts(tableOf(circuit), engineRow)).toEqual(['OFF still', 'ON runs', 'START cranks']);
  const dies = tableOf(circuit, 'W4 open');
  expect(verdicts(dies, engineRow)).toEqual(['OFF still', 'ON still', 'START cranks']);
  expect(row(dies, engineRow).map((c) => [c.changed, c.otherWay])).toEqual([
    [false, false],
    [true, false],
    [false, false],
  ]);
});

test('a load that a buzzing relay feeds is said to chatter in its cell, what stands beside it is not', () => {
  const circuit = made(
    `${key}
  K1: { kind: relay, form: break, coil: 85 Ω }
  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 5 W }`,
    `${keyWires}
  - { id: W2, from: S1.15, to: K1.30 }
  - { id: W3, from: K1.87a, to: K1.86 }
  - { id: W4, from: K1.85, to: ground }
  - { id: W5, from: K1.87a, to: H1.1 }
  - { id: W6, from: H1.2, to: ground }
  - { id: W7, from: S1.15, to: H2.1 }
  - { id: W8, from: H2.2, to: ground }`,
  );
  const table = tableOf(circuit);
  expect(verdicts(table, 'H1')).toEqual(['OFF dead', 'ON chatters', 'START chatters']);
  expect(verdicts(table, 'H2')).toEqual(['OFF dead', 'ON works', 'START works']);
  expect(table.chatters).toEqual([{ part: 'K1', positions: ['ON', 'START'] }]);
});

test('what a table is told to set stands in every cell, and a load still gets the switch that it needs', () => {
  const circuit = made(
    `${key}
  S2: { kind: switch }
  S3: { kind: switch }
  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 5 W }`,
    `${keyWires}
  - { from: S1.15, to: S2.1 }
  - { from: S2.2, to: H1.1 }
  - { from: H1.2, to: ground }
  - { from: S1.15, to: S3.1 }
  - { from: S3.2, to: H2.1 }
  - { from: H2.2, to: ground }`,
  );
  const on = (options: Parameters<typeof positionTable>[2]) => positionTable(circuit, [{ share: 1, changes: [] }], options);
  expect(on({}).rows.map((r) => r.needs)).toEqual([{ S2: 'on' }, { S3: 'on' }]);
  expect(verdicts(on({ hand: { S2: 'off' } }), 'H1')).toEqual(['OFF dead', 'ON dead', 'START dead']);
  expect(verdicts(on({ hand: { S2: 'off' } }), 'H2')).toEqual(['OFF dead', 'ON works', 'START works']);
  const apart = { apart: ['S3'], bridged: [], swapped: [] };
  expect(verdicts(on({ setup: apart }), 'H2')).toEqual(['OFF dead', 'ON dead', 'START dead']);
  expect(verdicts(on({ setup: { apart: ['S3'], bridged: [['S1.15', 'H2.1']], swapped: [] } }), 'H2')).toEqual([
    'OFF dead',
    'ON works',
    'START works',
  ]);
  const stretches = on({ between: true }).positions;
  expect(stretches.length).toBeGreaterThan(on({}).positions.length);
  expect(stretches.filter((p) => p.detent).map((p) => p.name)).toEqual(on({}).positions.map((p) => p.name));
});
