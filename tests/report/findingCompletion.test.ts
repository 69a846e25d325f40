import { expect, test } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { type FindingNames, findingCompletions } from '../../src/report/findingCompletion.ts';
import { libraryCircuit } from '../diagnose/library.ts';

const van = libraryCircuit('light-van');
const parts = [...van.parts.values()].filter((p) => !p.kind.isWire);
const names: FindingNames = {
  positions: [{ name: 'LOCK' }, { name: 'ACC' }, { name: 'ON' }, { name: 'START', springsTo: 'ON' }],
  loads: parts.filter((p) => p.isLoad).map((p) => ({ id: p.id, name: p.name ?? '' })),
  terminals: parts.flatMap((p) => p.kind.terminals(p).map((t) => `${p.id}.${t.name}`)),
  parts: parts.map((p) => p.id),
  hasEngine: true,
};

test('a scene is completed from its first letters, the shortest first', () => {
  expect(findingCompletions('on', names)[0]).toBe('ON: ');
  expect(findingCompletions('ON af', names)).toEqual(['ON after START: ']);
  expect(findingCompletions('bet', names)).toContain('between ON and START: ');
});

test('a load is found by its id or by any piece of its name, and takes a seen word', () => {
  expect(findingCompletions('ON: igni', names)).toContain('ON: T1 works');
  expect(findingCompletions('ON: t1 d', names)).toEqual(['ON: T1 dead']);
  expect(findingCompletions('START: engine f', names)).toEqual(['START: engine fires']);
});

test('a second finding of the same scene follows a comma; a reading takes its terminal', () => {
  expect(findingCompletions('ON: A1 works, T1 d', names)).toEqual(['ON: A1 works, T1 dead']);
  expect(findingCompletions('ON: 0.4 V at S1.', names)).toContain('ON: 0.4 V at S1.15');
});

test('what it completes to can be read', () => {
  for (const typed of ['ON: ', 'START: engine', 'ON: 12 V at X', 'replaced S1: '])
    for (const phrase of findingCompletions(typed, names)) expect(readFinding(phrase, van).ok, phrase).toBe(true);
});

test('nothing fits, nothing is offered', () => {
  expect(findingCompletions('ON: xylophone', names)).toEqual([]);
});
