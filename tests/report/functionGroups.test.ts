import { expect, test } from 'vitest';
import { functionGroups } from '../../src/report/functionGroups.ts';
import { layoutOf } from '../../src/report/layout/layoutOf.ts';
import { libraryCircuit, libraryNames } from '../diagnose/library.ts';

const grouped = (name: string) => {
  const circuit = libraryCircuit(name);
  const loads = layoutOf(circuit).tracks.map((t) => t.load);
  return { loads, groups: functionGroups(circuit, loads) };
};

test('the light van folds to what each load is for, the engine by its own word, the charge lamp by its current', () => {
  const { groups } = grouped('light-van');
  const of = (name: string) => groups.find((g) => g.name === name)?.loads ?? [];
  expect(groups.map((g) => g.name)).toEqual([
    'Starting',
    'Ignition and fuel',
    'Charging',
    'Lamps',
    'Instruments',
    'Wipers, blower, heaters',
    'Radio, horn, sockets',
  ]);
  expect(of('Starting')).toEqual(['M1']);
  expect(of('Ignition and fuel')).toContain('T1');
  expect(of('Charging')).toEqual(['H1']);
  expect(of('Lamps')).toContain('E13');
  expect(of('Lamps')).not.toContain('H1');
});

test.each(libraryNames)('%s: each load of the drawing is in exactly one group, and no group is empty', (name) => {
  const { loads, groups } = grouped(name);
  expect(groups.flatMap((g) => g.loads).sort()).toEqual([...loads].sort());
  expect(groups.filter((g) => g.loads.length === 0)).toEqual([]);
});

test('the injectors of the saloon, drawn as a heater, belong to the engine, since the circuit says so', () => {
  const { groups } = grouped('modern-saloon');
  expect(groups.find((g) => g.name === 'Ignition and fuel')?.loads).toEqual(expect.arrayContaining(['T1', 'M2', 'A1']));
});
