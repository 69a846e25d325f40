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
  const table: PositionTable = { positions: [], rows: [{ id: engineRow, name: 'Engine', needs: {}, cells }], warnings: [] };
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
