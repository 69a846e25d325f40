import type { Mark } from '../../src/report/positionRows.ts';
import type { CircuitSeen } from '../calls.ts';

/** A finding cut into what a row shows: scene, what, and the word with its mark. */
export type FindingParts = { readonly scene: string; readonly what: string; readonly word: string; readonly mark: Mark };

const marks: readonly (readonly [word: string, mark: Mark])[] = [
  ['comes and goes', 'half'],
  ['cranks slowly', 'half'],
  ['no change', 'dash'],
  ['not tried', 'dash'],
  ['works', 'full'],
  ['cranks', 'full'],
  ['fires', 'full'],
  ['runs', 'full'],
  ['cured', 'full'],
  ['changes', 'half'],
  ['weak', 'half'],
  ['hot', 'half'],
  ['dead', 'struck'],
  ['dies', 'struck'],
  ['still', 'struck'],
];

/** @param circuit for the names of loads; ids stay where a part has none */
export function findingParts(phrase: string, circuit: CircuitSeen): FindingParts {
  const colon = phrase.indexOf(':');
  const scene = phrase.slice(0, Math.max(0, colon));
  const told = phrase.slice(colon + 1).trim();
  const [word, mark] = marks.find(([w]) => told === w || told.endsWith(` ${w}`)) ?? ['', 'none' as const];
  const who = told.slice(0, told.length - word.length).trim();
  const name = circuit.parts.find((p) => p.id === who)?.name;
  return { scene, what: name === undefined || name === '' ? who : `${name} ${who}`, word, mark };
}

/** The poles, wires or part by which a suspect is shown on the drawing: `S1.30-15`, `W7`, `X2.3`. */
export const subjectOf = (fault: string): string => fault.split(' ')[0] ?? '';
