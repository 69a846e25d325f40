import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { partsAround } from '../../src/report/partsAround.ts';
import { loadsOf } from '../../src/solve/loads.ts';

const names = readdirSync('circuits').filter((f) => f.endsWith('.yaml'));
function circuitOf(name: string): Circuit {
  const read = readCircuit(readFileSync(`circuits/${name}`, 'utf8'), name, partKinds);
  if (!read.ok) throw new Error(`${name} has problems`);
  return read.value;
}

test('the coil of the van hangs on battery, key switch, ballast and points, and on no lamp', () => {
  const kept = partsAround(circuitOf('light-van.yaml'), ['T1']);
  for (const id of ['G1', 'S1', 'R1', 'T1', 'S10']) expect(kept.has(id), id).toBe(true);
  for (const id of ['E13', 'A1', 'F5', 'M3', 'S2']) expect(kept.has(id), id).toBe(false);
});

test.each(names)('%s: every load keeps itself and a supply, and never more than the whole', (name) => {
  const circuit = circuitOf(name);
  for (const load of loadsOf(circuit.parts.values())) {
    const kept = partsAround(circuit, [load.id]);
    expect(kept.has(load.id), load.id).toBe(true);
    expect(
      [...kept].some((id) => circuit.parts.get(id)?.kind.supply?.(circuit.parts.get(id)!) !== undefined),
      load.id,
    ).toBe(true);
    for (const id of kept) expect(circuit.parts.has(id), id).toBe(true);
  }
});
