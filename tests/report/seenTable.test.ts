import { expect, test } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { seenTable } from '../../src/report/seenTable.ts';
import { libraryCircuit } from '../diagnose/library.ts';

const van = libraryCircuit('light-van');
const table = seenTable(van);

test('every cell with any of its words is a finding that reads back as itself', () => {
  for (const row of table.rows)
    for (const cell of row.cells)
      for (const word of row.words) {
        const phrase = `${cell.head} ${word}`;
        const read = readFinding(phrase, van);
        expect(read.ok && read.value.map((f) => f.phrase)).toEqual([phrase]);
      }
});

test('the places are the detents, the stretches between where contacts change, and the one a spring returns to', () => {
  const names = table.places.map((p) => p.name);
  expect(names).toEqual(expect.arrayContaining(['LOCK', 'ACC', 'ON', 'START', 'ON after START']));
  expect(names.some((n) => n.startsWith('between ON and START'))).toBe(true);
  expect(table.places.at(-1)?.key).toMatchObject({ angle: 55, came: 'back' });
});

test('a load that needs a switch has it in its scene, and the engine stands first', () => {
  expect(table.rows[0]?.id).toBe('engine');
  const blower = table.rows.find((r) => r.id === 'M2');
  expect(blower?.cells[table.places.findIndex((p) => p.name === 'ON')]?.head).toBe('ON, S5 on: M2');
});

test('off as designed: the radio has no power in LOCK and in START, the ignition coil none in ACC', () => {
  // circuits/light-van.yaml: 30-75 closed from 18° to 64°, 30-15 from 42° to 95°.
  const off = (load: string, place: string) =>
    table.rows.find((r) => r.id === load)?.cells[table.places.findIndex((p) => p.name === place)]?.isOff;
  expect([off('A1', 'LOCK'), off('A1', 'ON'), off('A1', 'START')]).toEqual([true, false, true]);
  expect([off('T1', 'ACC'), off('T1', 'ON'), off('T1', 'START')]).toEqual([true, false, false]);
});
