import { expect, test } from 'vitest';
import { restScene } from '../../src/circuit/scenePhrase.ts';
import { jointAmperes } from '../../src/solve/jointAmperes.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { circuitOf } from '../report/madeCircuit.ts';

test('ideal wires and an exact supply carry what their resistors draw: 12 V on 6 Ω and on 4 Ω is 2 A and 3 A by Ohm', () => {
  const circuit = circuitOf(`title: Two resistors
parts:
  G1: { kind: supply, voltage: 12 V }
  R1: { kind: resistor, resistance: 6 ohm }
  R2: { kind: resistor, resistance: 4 ohm }
  J1: { kind: splice }
wires:
  - { id: W1, from: G1.+, to: J1 }
  - { id: W2, from: J1, to: R1.1 }
  - { id: W3, from: R2.1, to: J1 }
  - { id: W4, from: R1.2, to: ground }
  - { id: W5, from: R2.2, to: ground }
  - { id: W6, from: G1.-, to: ground }
`);
  const amperes = jointAmperes(operatingPoint(network(circuit), restScene(circuit)));
  const near = (id: string) => Math.round(amperes.get(id)! * 1e9) / 1e9;
  expect(['W1', 'W2', 'W3', 'W4', 'W5', 'W6'].map(near)).toEqual([5, 2, -3, 2, 3, -5]);
  // Counted from minus to plus inside the supply, as the solver counts sources.
  expect(near('G1')).toBe(5);
});

test('joints between terminals bear no name of an element: only what the circuit names is told', () => {
  const circuit = circuitOf(`title: One resistor
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 1 ohm }
  R1: { kind: resistor, resistance: 5 ohm }
wires:
  - { id: W1, from: G1.+, to: R1.1 }
  - { id: W2, from: R1.2, to: ground }
  - { id: W3, from: G1.-, to: ground }
  - { id: W4, from: R1.2, to: ground }
`);
  const amperes = jointAmperes(operatingPoint(network(circuit), restScene(circuit)));
  expect([...amperes.keys()].sort()).toEqual(['W1', 'W2', 'W3', 'W4']);
  // Two ideal wires side by side: how they share is not defined, and the later one is taken to carry nothing.
  expect([amperes.get('W1'), amperes.get('W2')].map((a) => Math.round(a! * 1e9) / 1e9)).toEqual([2, 2]);
  expect(amperes.get('W4')).toBe(0);
});
