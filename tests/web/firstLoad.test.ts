import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';

/** Every module that a module needs from the start, by its path; what is fetched later with `import()` is not followed. */
function neededBy(entry: string): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  const front = [entry];
  for (let path = front.pop(); path !== undefined; path = front.pop()) {
    if (found.has(path) || !existsSync(path)) continue;
    const text = readFileSync(path, 'utf8');
    found.set(path, text);
    for (const [, whole, from] of text.matchAll(/^(?:import|export) (?!type)([^;]*?)from '(\.[^']+)';/gms))
      if (whole !== undefined && from !== undefined) front.push(join(dirname(path), from));
  }
  return found;
}

// Modules fetched later by the worker are built with it, so the texts are missing there too.
const later = ['web/storyStrip.ts', 'web/meterReading.ts', 'web/largeCircuit.ts', 'src/report/pathWords.ts', 'src/report/wayDown.ts'];
const ofSolver = new Map(['web/solveWorker.ts', 'src/circuit/yamlTree.ts', ...later].flatMap((entry) => [...neededBy(entry)]));

test('the worker that solves reads none of the texts that its build leaves out', () => {
  const reads = [...ofSolver].flatMap(([path, text]) =>
    path.startsWith('src/parts/') ? [] : (text.match(/\b\w+\??\.(?:about|source)\b/g) ?? []).map((word) => `${path}: ${word}`),
  );
  expect(ofSolver.has('src/parts/relay.ts')).toBe(true);
  // Of a circuit, of a place in a file, and of ratings and faults, which keep theirs.
  expect([...new Set(reads)].sort()).toEqual([
    'src/circuit/issueProblem.ts: whole.about',
    'src/circuit/placedTree.ts: node.source',
    'src/circuit/readPlaced.ts: head.about',
    'src/circuit/readPlaced.ts: head?.about',
    'src/faults/faultModes.ts: mode.source',
    'src/solve/overloads.ts: rating.source',
    'web/solveWorker.ts: circuit.about',
  ]);
});

test('the worker that solves needs no parser of files, no player and no instruments from the start', () => {
  const start = [...neededBy('web/solveWorker.ts').keys()];
  expect(start).toContain('src/circuit/readPlaced.ts');
  for (const folder of ['src/play/', 'src/diagnose/', 'src/drain/', 'src/practice/'])
    expect(start.filter((p) => p.startsWith(folder))).toEqual([]);
  for (const path of ['src/circuit/yamlTree.ts', 'src/solve/instruments.ts']) expect(start).not.toContain(path);
});

test('the page needs no view but the bench from the start', () => {
  const start = [...neededBy('web/start.ts').keys()];
  expect(start).toContain('web/bench/BenchView.ts');
  for (const folder of ['find', 'drain', 'practise', 'sheet', 'circuit/CircuitView'])
    expect(start.filter((p) => p.startsWith(`web/${folder}`))).toEqual([]);
});
