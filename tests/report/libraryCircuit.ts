import { readFileSync } from 'node:fs';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';

/** A circuit of the library, read. */
export function libraryCircuit(name: string): Circuit {
  const read = readCircuit(readFileSync(`circuits/${name}.yaml`, 'utf8'), `${name}.yaml`, partKinds);
  if (!read.ok) throw new Error(read.problems[0]?.what);
  return read.value;
}
