import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { stepEdits } from '../../../src/circuit/edit/steps.ts';
import { edited } from '../../../src/circuit/edit/textEdit.ts';
import { keySwitchOf } from '../../../src/circuit/keySwitchOf.ts';
import type { KeyModel } from '../../../src/circuit/part.ts';
import { readCircuit } from '../../../src/circuit/readCircuit.ts';
import { partKinds } from '../../../src/parts/index.ts';
import { type BenchReading, benchPlan, switchFromBench, switchFromTable } from '../../../src/report/circuitEdit/keyTable.ts';

const rows = [
  { name: 'OFF', angle: 0, keyOut: true },
  { name: 'ON', angle: 60 },
  { name: 'START', angle: 90, springsTo: 'ON' },
];
function modelOf(held: Parameters<typeof switchFromTable>[0] extends never ? never : ReturnType<typeof switchFromTable>): KeyModel {
  const start = 'title: t\nparts:\n  G1: { kind: battery }\n';
  const text = edited(start, stepEdits(start, { do: 'part', id: 'S1', held }) ?? []);
  const read = readCircuit(text, 'x', partKinds);
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('\n'));
  return keySwitchOf(read.value)!.model;
}

test('a printed table: groups of joined terminals become pairs with the feed', () => {
  const model = modelOf(switchFromTable(rows, { ON: [['30', '15', '75']], START: [['50', '30', '15']] }));
  expect(model.contacts.map((c) => c.id).sort()).toEqual(['30-15', '30-50', '30-75']);
  expect(model.contacts.find((c) => c.id === '30-50')?.sectors).toEqual([[75, 105]]);
  expect(model.contacts.find((c) => c.id === '30-15')?.sectors).toEqual([[30, 105]]);
});

/** Joined in a position, by whatever way: what a meter would say on the bare switch. */
function joinedAt(model: KeyModel, angle: number, a: string, b: string): boolean {
  const closed = model.contacts
    .filter((c) => c.sectors.some(([from, to]) => angle >= from && angle <= to))
    .map((c) => c.id.split('-') as [string, string]);
  const seen = new Set([a]);
  for (let k = 0; k < closed.length; k++) for (const [p, q] of closed) if (seen.has(p) || seen.has(q)) seen.add(p).add(q);
  return seen.has(b);
}

const files = readdirSync('circuits').filter((f) => f.endsWith('.yaml'));
test.each(files)('the key switch of %s, read with a meter pair by pair, is joined the same at every detent', (file) => {
  const read = readCircuit(readFileSync(`circuits/${file}`, 'utf8'), file, partKinds);
  const key = read.ok ? keySwitchOf(read.value) : undefined;
  if (!key) return expect(read.ok).toBe(true);
  const { model } = key;
  const positions = model.positions.map(({ name, angle, keyOut, springsTo }) => ({ name, angle, keyOut, springsTo }));
  const terminals = [...new Set(model.contacts.flatMap((c) => c.id.split('-')))];
  const readings = benchPlan(terminals, positions).map((r): BenchReading => {
    const at = positions.find((p) => p.name === r.position)!.angle;
    return { ...r, said: joinedAt(model, at, r.a, r.b) ? 'joined' : 'open' };
  });
  const { held, unclear } = switchFromBench(positions, terminals, readings);
  expect(unclear).toEqual([]);
  const made = modelOf(held);
  for (const { angle, name } of positions)
    for (const { a, b } of benchPlan(terminals, [{ name, angle }]))
      expect(joinedAt(made, angle, a, b), `${name} ${a} ${b}`).toBe(joinedAt(model, angle, a, b));
});

test('pairs that nobody can tell are listed, and only those', () => {
  const said = (position: string, a: string, b: string, s: BenchReading['said']): BenchReading => ({ position, a, b, said: s });
  const { unclear } = switchFromBench(
    rows,
    ['30', '15', '50'],
    [
      said('OFF', '30', '15', 'open'),
      said('OFF', '30', '50', 'open'),
      said('OFF', '15', '50', 'not sure'),
      said('ON', '30', '15', 'joined'),
      said('ON', '30', '50', 'open'),
      said('START', '30', '15', 'joined'),
      said('START', '30', '50', 'joined'),
      said('START', '15', '50', 'open'),
    ],
  );
  // ON 15 to 50 follows: 15 is joined with 30, and 30 is open against 50.
  expect(unclear.map((u) => `${u.position} ${u.a} ${u.b}`)).toEqual(['OFF 15 50', 'START 15 50']);
});
