import { expect, test } from 'vitest';
import { noticed } from '../../src/report/noticed.ts';
import { type Cell, type CellVerdict, engineRow, type PositionTable } from '../../src/solve/positionTable.ts';

const positions = ['ACC', 'ON', 'between ON and START 1', 'between ON and START 2', 'START'];

/** The engine row of a vehicle that runs from ON on, with its verdict in each of the positions. */
function told(...verdicts: readonly CellVerdict[]): readonly string[] {
  const cells = positions.map((position, k): Cell => {
    const healthy = k === 0 ? 'still' : k === 4 ? 'cranks' : 'runs';
    const verdict = verdicts[k]!;
    const figures = { volts: 12, amperes: 1 };
    return { position, verdict, ...figures, otherWay: false, changed: verdict !== healthy, healthy: { verdict: healthy, ...figures } };
  });
  const table: PositionTable = { positions: [], rows: [{ id: engineRow, name: 'Engine', needs: {}, cells }], warnings: [], chatters: [] };
  return noticed(table);
}

test('a stretch of the key that the fault does not divide is said as one', () => {
  expect(told('still', 'still', 'runs', 'runs', 'cranks')).toEqual(['The engine dies in ON; it runs between ON and START.']);
});

test('half a stretch keeps its number', () => {
  expect(told('still', 'still', 'still', 'runs', 'cranks')).toEqual([
    'The engine dies in ON and between ON and START 1; it runs between ON and START 2.',
  ]);
});

test('a sound vehicle is nothing to notice', () => {
  expect(told('still', 'runs', 'runs', 'runs', 'cranks')).toEqual([]);
});

/** A table of one cell: the engine in a key position, in two words of which one is at times, beside the sound vehicle's. */
function at(position: string, verdict: CellVerdict, less: CellVerdict, healthy: CellVerdict): string {
  const is = { volts: 12, amperes: 0 };
  const cell = { position, verdict, ...is, otherWay: false, changed: true, healthy: { verdict: healthy, ...is } };
  const cells = [{ ...cell, sometimes: { verdict: less, share: 0.4 } } as Cell];
  return noticed({ rows: [{ id: 'engine', name: 'engine', cells }] } as unknown as PositionTable).join(' ');
}

test.each([
  // Spark and fuel are there in START whether the starter turns or not: nobody sees an engine run that was never turned.
  ['START', 'cranks', 'runs', 'cranks', 'In START the starter turns, but 40 times in 100 it does not.'],
  ['START', 'runs', 'cranks', 'cranks', 'In START the starter does not turn, but 40 times in 100 it does.'],
  ['START', 'runs', 'still', 'cranks', 'In START the starter does not turn.'],
  ['ON', 'still', 'cranks', 'still', 'In ON the starter does not turn, but 40 times in 100 it does.'],
  ['ON', 'runs', 'still', 'runs', 'In ON the engine runs, but 40 times in 100 it dies.'],
  ['LOCK', 'still', 'runs', 'still', 'In LOCK the engine is still, but 40 times in 100 it runs.'],
  ['between ON and START', 'cranks', 'still', 'cranks', 'Between ON and START the starter turns, but 40 times in 100 it does not.'],
] as const)('%s, %s and at times %s where the sound vehicle %s: %s', (position, verdict, less, healthy, said) => {
  expect(at(position, verdict, less, healthy)).toBe(said);
});
