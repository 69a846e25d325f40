import { expect, test } from 'vitest';
import { keySwitchOf } from '../../src/circuit/keySwitchOf.ts';
import { restScene } from '../../src/circuit/scenePhrase.ts';
import { changesOf, faultOf } from '../../src/faults/fault.ts';
import { faultModes } from '../../src/faults/faultModes.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { vehicle } from './vehicle.ts';

// A ring of contacts that undo each other needs a part that switches by itself; wires and lamps never chatter.
const switchesItself = /^(relay|timed-relay|starter|module|solenoid|ignition-module|flasher|radio|key-switch)$/;

test.each([
  'bench-board',
  'light-van',
  'saloon',
  'motorcycle',
  'tractor',
  'diesel-estate',
  'truck',
  'classic-six-volt',
  'boat',
  'modern-saloon',
] as const)(
  '%s: every single fault solves at the last two detents, Kirchhoff within 1e-9',
  (name) => {
    const { circuit } = vehicle(name);
    const modes = faultModes(circuit);
    expect(modes.length).toBeGreaterThan(circuit.parts.size);
    const places = keySwitchOf(circuit)!.model.positions.slice(-2);
    for (const { part, mode } of modes) {
      const net = network(circuit, changesOf([faultOf(part, mode)]));
      for (const { angle, name: position } of places) {
        const at = operatingPoint(net, { ...restScene(circuit), key: { angle, came: 'up', in: true } });
        if (!(at.residual <= 1e-9)) expect(at.residual, `${mode.subject} ${mode.words} at ${position}`).toBeLessThanOrEqual(1e-9);
        for (const id of at.chatters)
          expect(circuit.parts.get(id)!.kind.kind, `${mode.subject} ${mode.words} at ${position}`).toMatch(switchesItself);
      }
    }
  },
  120_000,
);
