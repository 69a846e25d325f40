import type { Circuit } from '../circuit/circuit.ts';
import type { Problem } from '../circuit/problem.ts';
import { readCircuit } from '../circuit/readCircuit.ts';
import { partKinds } from '../parts/index.ts';
import type { Io } from './io.ts';

/** A circuit file as a command gets it; `texts` serves `sayProblems`. `circuit` is absent when a problem is an error. */
export type CircuitFile = {
  readonly circuit: Circuit | undefined;
  readonly problems: readonly Problem[];
  readonly texts: ReadonlyMap<string, string>;
};

export function circuitFile(path: string, io: Io): CircuitFile {
  const file = io.readFile(path);
  if (!file.ok) return { circuit: undefined, problems: file.problems, texts: new Map() };
  const read = readCircuit(file.value, path, partKinds);
  return { circuit: read.ok ? read.value : undefined, problems: read.problems, texts: new Map([[path, file.value]]) };
}
