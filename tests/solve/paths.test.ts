import { expect, test } from 'vitest';
import { restScene } from '../../src/circuit/scenePhrase.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { allWays, currentPaths, voltsAlong } from '../../src/solve/paths.ts';
import { circuitOf } from '../report/madeCircuit.ts';

/** Two supplies in parallel by wires with resistance, a lamp behind each rail. */
const two = (left: string, right: string) =>
  circuitOf(`title: Two supplies
parts:
  G1: { kind: supply, voltage: ${left}, resistance: 0.1 ohm }
  G2: { kind: supply, voltage: ${right}, resistance: 0.1 ohm }
  R1: { kind: resistor, resistance: 0.5 ohm }
  H1: { kind: heater, resistance: 6 ohm }
  H2: { kind: heater, resistance: 6 ohm }
wires:
  - { from: G1.+, to: R1.1 }
  - { from: R1.2, to: G2.+ }
  - { from: G2.+, to: H1.1 }
  - { from: H1.2, to: G2.- }
  - { from: G1.-, to: ground }
  - { from: G2.-, to: ground }
`);
function ways(left: string, right: string, load = 'H1') {
  const circuit = two(left, right);
  const at = operatingPoint(network(circuit), restScene(circuit));
  const found = currentPaths(at, circuit.parts.get(load)!);
  return { ...found, volts: voltsAlong(at, found.feed) };
}

test('the feed of a load begins at the supply that gives, not at one that is being charged on the way', () => {
  const { feed, return: back, volts } = ways('14 V', '12 V');
  expect(feed.terminals).toEqual(['G1.+', 'R1.1', 'R1.2', 'H1.1']);
  expect(feed.elements).toEqual([{ id: 'R1', forwards: true }]);
  expect(back.terminals[0]).toBe('H1.2');
  expect(back.terminals.at(-1)).toBe('G1.-');
  // The charged one sits between: (14 / 0.6 + 12 / 0.1) / (1 / 0.6 + 1 / 0.1 + 1 / 6) by Millman's theorem (from memory).
  expect(volts.at(-1)).toBeCloseTo((14 / 0.6 + 12 / 0.1) / (1 / 0.6 + 1 / 0.1 + 1 / 6), 9);
  expect(volts[0]).toBeGreaterThan(volts.at(-1)!);
});

test('where the nearer one gives, the way ends there', () => {
  const { feed, return: back } = ways('12 V', '14 V');
  expect(feed.terminals).toEqual(['G2.+', 'H1.1']);
  expect(feed.elements).toEqual([]);
  expect(back.terminals).toEqual(['H1.2', 'G2.-']);
});

test('a load that carries nothing has no way', () => {
  const { feed, return: back } = ways('14 V', '12 V', 'H2');
  expect([feed, back]).toEqual([
    { terminals: [], elements: [] },
    { terminals: [], elements: [] },
  ]);
});

test('a supply the wrong way round feeds through the other end of the load: the way is turned with the current', () => {
  const { feed, return: back } = ways('-14 V', '-14 V');
  expect(feed.terminals[feed.terminals.length - 1]).toBe('H1.2');
  expect(back.terminals[0]).toBe('H1.1');
});

test('of supplies in series a way ends at one that gives the way it goes: back through the loads of the lower one, not into it', () => {
  // 24 V in two halves. Between the upper end and the middle hangs a small load, below the middle a large one: it feeds on.
  const circuit = circuitOf(`title: Two halves
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.1 ohm }
  G2: { kind: supply, voltage: 12 V, resistance: 0.1 ohm }
  H1: { kind: heater, resistance: 24 ohm }
  H2: { kind: heater, resistance: 2 ohm }
  H3: { kind: heater, resistance: 48 ohm }
wires:
  - { from: G1.-, to: ground }
  - { from: G1.+, to: G2.- }
  - { from: G2.+, to: H1.1 }
  - { from: H1.2, to: G1.+ }
  - { from: G1.+, to: H2.1 }
  - { from: H2.2, to: ground }
  - { from: G2.+, to: H3.1 }
  - { from: H3.2, to: ground }
`);
  const at = operatingPoint(network(circuit), restScene(circuit));
  const of = (load: string) => currentPaths(at, circuit.parts.get(load)!);
  expect(of('H1').feed.terminals).toEqual(['G2.+', 'H1.1']);
  expect(of('H1').return.terminals).toEqual(['H1.2', 'G2.-']);
  expect(of('H2').feed.terminals).toEqual(['G1.+', 'H2.1']);
  expect(of('H2').return.terminals).toEqual(['H2.2', 'G1.-']);
  expect(of('H3').return.terminals.at(-1)).toBe('G1.-');
});

test('the terminals that are passed are told once each, wires and their ends left out, elements with the wires', () => {
  const circuit = circuitOf(`title: In a row
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.1 ohm }
  F1: { kind: fuse, rating: 10 A }
  S1: { kind: switch }
  H1: { kind: heater, resistance: 6 ohm }
wires:
  - { id: W1, from: F1.1, to: G1.+, area: 1 mm², length: 1 m }
  - { id: W2, from: F1.2, to: S1.1, area: 1 mm², length: 1 m }
  - { id: W3, from: H1.1, to: S1.2, area: 1 mm², length: 1 m }
  - { id: W4, from: H1.2, to: ground, area: 1 mm², length: 1 m }
  - { id: W5, from: G1.-, to: ground, area: 1 mm², length: 1 m }
`);
  const at = operatingPoint(network(circuit), { ...restScene(circuit), hand: { S1: 'on' } });
  const { feed, return: back } = currentPaths(at, circuit.parts.get('H1')!);
  expect(feed.terminals).toEqual(['G1.+', 'F1.1', 'F1.2', 'S1.1', 'S1.2', 'H1.1']);
  expect(feed.elements).toEqual([
    { id: 'W1', forwards: false },
    { id: 'F1', forwards: true },
    { id: 'W2', forwards: true },
    { id: 'S1', forwards: true },
    { id: 'W3', forwards: false },
  ]);
  expect(back).toEqual({
    terminals: ['H1.2', 'G1.-'],
    elements: [
      { id: 'W4', forwards: true },
      { id: 'W5', forwards: false },
    ],
  });
  // Every way that carries a part: here the same, the nearest to the load first.
  expect(allWays(at, circuit.parts.get('H1')!)).toEqual([...[...feed.elements].reverse(), ...back.elements]);
});

test('two supplies that give at one point end ways there, whichever the file names first; what a machine gives at D+ begins there', () => {
  const made = (first: 'battery' | 'alternator', rail: string) => {
    const battery = '  G1: { kind: battery, capacity: 60 Ah }\n';
    const alternator = '  G2: { kind: alternator, rated: 55 A, excitation: lamp }\n';
    return circuitOf(`title: Running
parts:
${first === 'battery' ? battery + alternator : alternator + battery}  R5: { kind: heater, resistance: 20 ohm }
  R6: { kind: heater, resistance: ${rail} }
  H9: { kind: lamp, power: 2 W }
wires:
  - { from: G2.B+, to: G1.+ }
  - { id: W1, from: G1.-, to: ground, area: 16 mm², length: 1 m }
  - { from: G2.D+, to: R5.1 }
  - { from: R5.2, to: ground }
  - { from: G1.+, to: R6.1 }
  - { from: R6.2, to: ground }
  - { from: G2.31, to: ground }
  - { from: G1.+, to: H9.1 }
  - { from: H9.2, to: G2.D+ }
`);
  };
  const waysIn = (first: 'battery' | 'alternator', rail: string) => {
    const circuit = made(first, rail);
    const at = operatingPoint(network(circuit), { ...restScene(circuit), engine: 'running' });
    const r5 = circuit.parts.get('R5')!;
    expect(at.amperes[at.network.branchOf.get('R5')!]!).toBeGreaterThan(0.1);
    return { every: allWays(at, r5), feed: currentPaths(at, r5).feed };
  };
  for (const rail of ['0.15 ohm', '100 ohm']) {
    const [one, other] = [waysIn('battery', rail), waysIn('alternator', rail)];
    expect(one).toEqual(other);
    expect(one.feed).toEqual({ terminals: ['G2.D+', 'R5.1'], elements: [] });
    // Some of it may come through the charge lamp, none through the machine's windings or another load.
    expect(one.every.filter((e) => e.id !== 'H9')).toEqual([]);
  }
});
