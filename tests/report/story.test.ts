import { expect, test } from 'vitest';
import { changesOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { storyFault } from '../../src/report/storyFault.ts';
import { storyLoads } from '../../src/report/storyLoads.ts';
import { engineSeen } from '../../src/solve/engine.ts';
import { network } from '../../src/solve/network.ts';
import { libraryCircuit } from '../diagnose/library.ts';

const van = libraryCircuit('light-van');

test('the light van tells its story by starter, ignition coil and charge lamp, then by one load of each contact', () => {
  const { first, more } = storyLoads(van);
  expect(first).toEqual(['M1', 'T1', 'H1']);
  // The radio hangs on 75, the idle cut-off on 15: circuits/light-van.yaml.
  expect(more.slice(0, 2).sort()).toEqual(['A1', 'Y1']);
});

test('the first fault lets the engine fire and die on release', () => {
  const phrase = storyFault(van);
  expect(phrase).toBe('S1.30-15 open at ON');
  const fault = readFault(phrase!, van);
  const net = network(van, changesOf(fault.ok ? [fault.value] : []));
  const scene = { hand: {}, apart: [], bridged: [], swapped: [] } as const;
  const at = (angle: number, engine: 'stopped' | 'running') => engineSeen(net, { ...scene, key: { angle, came: 'up', in: true }, engine });
  expect(at(85, 'stopped')).toMatchObject({ cranks: true, alive: true });
  expect(at(55, 'running')).toMatchObject({ alive: false });
});
