import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { partKinds } from '../../src/parts/index.ts';

const folder = join(import.meta.dirname, '..', '..', 'circuits');
export const circuitNames = readdirSync(folder)
  .filter((f) => f.endsWith('.yaml'))
  .map((f) => f.replace('.yaml', ''));

const known = new Map<string, { readonly circuit: Circuit; readonly predictor: Predictor }>();

/** A circuit of the library with a predictor that remembers. */
export function vehicle(name: string): { readonly circuit: Circuit; readonly predictor: Predictor } {
  const before = known.get(name);
  if (before) return before;
  const read = readCircuit(readFileSync(join(folder, `${name}.yaml`), 'utf8'), `${name}.yaml`, partKinds);
  if (!read.ok) throw new Error(`${name} cannot be read`);
  const made = { circuit: read.value, predictor: new Predictor(read.value) };
  known.set(name, made);
  return made;
}
