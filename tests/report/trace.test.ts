import { expect, test } from 'vitest';
import { changesOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { traceData, traceText } from '../../src/report/traceView.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { positionTable } from '../../src/solve/positionTable.ts';
import { library, sound } from '../circuit/phraseCircuit.ts';
import { circuitOf } from './madeCircuit.ts';

const real = 'area: 1 mm², length: 1 m';
/** H1 behind the key and its own switch, H2 always live, both on one ground point. */
const circuit = circuitOf(`title: Made
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  S1: { kind: key-switch, positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 40° } }, contacts: { 30-15: [30°..50°] } }
  S2: { kind: switch }
  H1: { kind: lamp, power: 21 W }
  H2: { kind: lamp, power: 5 W }
wires:
  - { from: G1.-, to: ground }
  - { from: G1.+, to: S1.30 }
  - { id: W1, from: S1.15, to: S2.1, ${real} }
  - { id: W2, from: S2.2, to: H1.1, ${real} }
  - { id: W3, from: H1.2, to: ground, ${real} }
  - { id: W4, from: G1.+, to: H2.1, ${real} }
  - { id: W5, from: H2.2, to: ground, ${real} }
`);
const unlocked = circuitOf(`title: Lamp on a switch
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  S1: { kind: switch }
  H1: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: S1.1 }
  - { id: W2, from: S1.2, to: H1.1, ${real} }
  - { id: W3, from: H1.2, to: G1.-, ${real} }
  - { from: G1.-, to: ground }
`);
const at = (angle: number, fault?: string) => {
  const scene = { key: { angle, came: 'up', in: true }, hand: {}, engine: 'stopped', apart: [], bridged: [], swapped: [] } as const;
  const healthy = operatingPoint(network(circuit, []), scene);
  return [fault ? operatingPoint(network(circuit, changesOf([sound(readFault(fault, circuit))])), scene) : healthy, healthy] as const;
};
const otherWays = (...args: Parameters<typeof at>) =>
  traceData(...at(...args), false)
    .loads.filter((l) => l.otherWay)
    .map((l) => `${l.id} ${l.verdict}`);

test('a load that lives where it ought to be dead is told to be fed another way, unless it is by its own switch', () => {
  expect(otherWays(0)).toEqual([]);
  expect(otherWays(40)).toEqual([]);
  expect(otherWays(0, 'W2 short to feed')).toEqual(['H1 works']);
  // The switch stuck closed: by its own way, only unasked. So with the contact of the key switch.
  expect(otherWays(40, 'S2 stuck closed')).toEqual([]);
  expect(traceText(...at(0, 'W2 short to feed'), undefined)).toMatch(/H1 .*by another way/);
});

test('so it is told in a circuit without a key switch', () => {
  const scene = { hand: {}, engine: 'stopped', apart: [], bridged: [], swapped: [] } as const;
  const seen = (...phrases: readonly string[]) => {
    const changes = changesOf(phrases.map((p) => sound(readFault(p, unlocked))));
    const [at, healthy] = [operatingPoint(network(unlocked, changes), scene), operatingPoint(network(unlocked), scene)];
    return traceData(at, healthy, false).loads.map((l) => `${l.id} ${l.verdict} ${l.otherWay}`);
  };
  expect(seen('S1 stuck closed')).toEqual(['H1 works false']);
  expect(seen('W2 short to feed')).toEqual(['H1 works true']);
});

test.each([
  ['motorcycle', 'XE1 open'],
  ['bench-board', 'S1.30-15 stuck closed'],
])('%s with %s: a trace and the table say the same of every load in every position', (name, phrase) => {
  const vehicle = library(name);
  const faults = [sound(readFault(phrase, vehicle))];
  const table = positionTable(vehicle, [{ share: 1, changes: changesOf(faults) }]);
  const nets = [network(vehicle, changesOf(faults)), network(vehicle, [])] as const;
  for (const [k, position] of table.positions.entries()) {
    for (const { id, needs, cells } of table.rows.filter((r) => r.id !== 'engine')) {
      const scene = { key: position.key, hand: needs, engine: 'stopped', apart: [], bridged: [], swapped: [] } as const;
      const traced = traceData(operatingPoint(nets[0], scene), operatingPoint(nets[1], scene), false).loads.find((l) => l.id === id)!;
      expect([position.name, id, traced.otherWay]).toEqual([position.name, id, cells[k]!.otherWay]);
    }
  }
});

test('the current of a charge lamp goes on through the alternator that stands still, its usual way: common practice, no source', () => {
  const van = library('light-van');
  const table = positionTable(van, [{ share: 1, changes: changesOf([sound(readFault('S1.30-15 0.5 Ω', van))]) }]);
  const lamp = table.rows.find((r) => r.id === 'H1')!;
  expect(lamp.cells.some((c) => c.verdict !== 'dead' && c.volts !== c.healthy.volts)).toBe(true);
  expect(lamp.cells.filter((c) => c.otherWay).map((c) => c.position)).toEqual([]);
});
