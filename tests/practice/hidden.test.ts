import { expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import type { Fault } from '../../src/faults/fault.ts';
import { Chance } from '../../src/practice/chance.ts';
import { hiddenFaults, suits, tableWith } from '../../src/practice/hidden.ts';
import type { LevelNumber } from '../../src/practice/level.ts';
import { circuitNames, vehicle } from './vehicles.ts';

const hidden = (circuit: Circuit, level: LevelNumber) => [...hiddenFaults(circuit, level, new Chance(1))].map(([f]) => f!);
const kindOf = (circuit: Circuit, { part }: Fault) => circuit.parts.get(part)!.kind.kind;
/** What burns open to protect the wire behind it. */
const protects = ['fuse', 'fusible-link', 'circuit-breaker'];

test.each(circuitNames)('an open contact is one of a switch or relay, on %s: a blown fuse or link is none', (name) => {
  const { circuit } = vehicle(name);
  const kinds = new Set(hidden(circuit, 3).map((f) => kindOf(circuit, f)));
  expect(protects.filter((k) => kinds.has(k))).toEqual([]);
  for (const kind of ['key-switch', 'relay'])
    if ([...circuit.parts.values()].some((p) => p.kind.kind === kind)) expect(kinds).toContain(kind);
});

test('a feed lost upstream can be a blown fuse with which two loads or more are lost', () => {
  const { circuit } = vehicle('light-van');
  const fuses = hidden(circuit, 4).filter((f) => protects.includes(kindOf(circuit, f)));
  expect(fuses.some((f) => suits(circuit, 4, [f], tableWith(circuit, [f])))).toBe(true);
});
