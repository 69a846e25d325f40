import { expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { sound } from './phraseCircuit.ts';

test('the engine of a file: each role keeps its order, and what stops it is there only where it was said', () => {
  const read = (engine: string) => {
    const parts = ['M1', 'T1', 'Y1', 'Y2', 'G2'].map((id) => `  ${id}: { kind: heater, resistance: 5 Ω }\n`).join('');
    const wires = ['M1', 'T1', 'Y1', 'Y2', 'G2'].map((id) => `  - { from: G1.+, to: ${id}.1 }\n  - { from: ${id}.2, to: G1.- }\n`).join('');
    return readCircuit(
      `title: Engine\nparts:\n  G1: { kind: supply, voltage: 12 V }\n${parts}wires:\n${wires}engine: ${engine}\n`,
      'engine.yaml',
      partKinds,
    );
  };
  expect(sound(read('{ crank: M1, spark: T1, fuel: [Y2, Y1], drives: [G2] }')).engine).toEqual({
    crank: 'M1',
    spark: ['T1'],
    fuel: ['Y2', 'Y1'],
    drives: ['G2'],
  });
  expect(sound(read('{ crank: M1, spark: [], fuel: [], stops: [Y1] }')).engine).toEqual({
    crank: 'M1',
    spark: [],
    fuel: [],
    stops: ['Y1'],
    drives: [],
  });
  const [problem] = read('{ crank: M9, spark: [], fuel: [Y1] }').problems;
  expect(problem).toMatchObject({ code: 'unknown-part', what: 'crank of the engine is `M9`, and no part has that id' });
  expect(problem!.mend).toEqual(['parts with a near name: `M1`']);
  expect(read('{ crank: M1, spark: [], fuel: [Y1, Q] }').problems.map((p) => [p.what, p.mend])).toEqual([
    ['fuel of the engine is `Q`, and no part has that id', ['name the id of a part of this file']],
  ]);
});
