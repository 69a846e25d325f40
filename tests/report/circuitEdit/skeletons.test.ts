import { describe, expect, test } from 'vitest';
import { stepEdits } from '../../../src/circuit/edit/steps.ts';
import { edited } from '../../../src/circuit/edit/textEdit.ts';
import { readCircuit } from '../../../src/circuit/readCircuit.ts';
import { partKinds } from '../../../src/parts/index.ts';
import { skeletons } from '../../../src/report/circuitEdit/skeletons/skeletons.ts';
import { positionTable } from '../../../src/solve/positionTable.ts';

describe.each(skeletons.map((s) => [s.name, s] as const))('%s', (_, skeleton) => {
  const read = readCircuit(skeleton.text, skeleton.name, partKinds);
  test('reads without a problem', () => {
    expect(read.problems.map((p) => `${p.line} ${p.what}`)).toEqual([]);
  });
  test('healthy, every load works in some position, no guide value is passed, and the engine cranks', () => {
    if (!read.ok) throw new Error('it does not read');
    const table = positionTable(read.value, [{ share: 1, changes: [] }]);
    const never = table.rows.filter((l) => l.cells.every((c) => !['works', 'runs', 'cranks'].includes(c.verdict)));
    expect(never.map((l) => `${l.id} ${l.cells.map((c) => c.verdict).join()}`)).toEqual([]);
    expect(table.warnings.map((w) => JSON.stringify(w))).toEqual([]);
  }, 30_000);
  test('each group struck out alone leaves a circuit that reads; all of them as well', () => {
    const without = (ids: readonly string[]) => edited(skeleton.text, stepEdits(skeleton.text, { do: 'remove', ids }) ?? []);
    for (const group of [...skeleton.groups.map((g) => g.parts), skeleton.groups.flatMap((g) => g.parts)]) {
      const less = readCircuit(without(group), skeleton.name, partKinds);
      expect(less.problems.filter((p) => p.severity === 'error').map((p) => p.what)).toEqual([]);
      expect(without(group)).not.toMatch(new RegExp(`\\b(${group.join('|')})\\.`));
    }
  });
});
