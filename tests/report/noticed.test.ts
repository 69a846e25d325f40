import { expect, test } from 'vitest';
import { noticed } from '../../src/report/noticed.ts';
import type { Cell, CellVerdict, PositionTable } from '../../src/solve/positionTable.ts';

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
