import { readdirSync, readFileSync } from 'node:fs';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import type { Finding } from '../../src/diagnose/finding.ts';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { draw } from '../../src/play/random.ts';
import { sound } from '../circuit/phraseCircuit.ts';

const folder = new URL('../../circuits/', import.meta.url);
export const libraryNames = readdirSync(folder)
  .filter((f) => f.endsWith('.yaml'))
  .map((f) => f.replace('.yaml', ''))
  .sort();

const known = new Map<string, Circuit>();
export function libraryCircuit(name: string): Circuit {
  const circuit = known.get(name) ?? sound(readCircuit(readFileSync(new URL(`${name}.yaml`, folder), 'utf8'), `${name}.yaml`, partKinds));
  known.set(name, circuit);
  return circuit;
}

/** Findings from phrases. */
export const saw = (circuit: Circuit, ...phrases: readonly string[]): readonly Finding[] =>
  phrases.flatMap((phrase) => sound(readFinding(phrase, circuit)));

/** Seeded chance: the same draws every time. */
export function seededRandom(seed: number): () => number {
  let state = seed;
  return () => {
    const [chance, next] = draw(state);
    state = next;
    return chance;
  };
}
