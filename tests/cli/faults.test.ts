import { expect, test } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { fakeIo } from './fakeIo.ts';

async function run(...words: readonly string[]) {
  const { io, out, err } = fakeIo();
  const exit = await runLine(words, io);
  return { exit, out: out(), errors: err() };
}

test('faults of one part, in 80 columns', async () => {
  const { exit, out } = await run('faults', 'circuits/bench-board.yaml', 'S1');
  expect(exit).toBe(0);
  expect(out).toContain('S1.30-15 open at ON');
  expect(out).not.toContain('XE1');
  expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
});

test('faults as data', async () => {
  const { exit, out } = await run('faults', 'circuits/bench-board.yaml', '--json');
  const { faults } = JSON.parse(out) as { faults: Record<string, unknown>[] };
  expect(exit).toBe(0);
  expect(faults.length).toBeGreaterThan(100);
  for (const row of faults) expect(Object.keys(row)).toEqual(['fault', 'part', 'mode', 'text', 'weight', 'source']);
});

test('a part that is not there is told at its place in the typed line', async () => {
  const { exit, errors } = await run('faults', 'circuits/bench-board.yaml', 'S99');
  expect(exit).toBe(1);
  expect(errors).toContain('the circuit has no part `S99`');
  expect(errors).toContain('detent faults circuits/bench-board.yaml S99');
});

test('a part without faults of its own says where they are', async () => {
  const { exit, out } = await run('faults', 'circuits/light-van.yaml', 'J1');
  expect(exit).toBe(0);
  expect(out).toBe('J1 has no fault of its own; its joints fail with the wires that end there.');
});
