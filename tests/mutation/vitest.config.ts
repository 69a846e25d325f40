import { defineConfig } from 'vitest/config';

/** Folders of tests that see the mutated folders, told by run.mjs. */
const folders = (process.env['MUTATED_FOLDERS'] ?? 'circuit,solve,faults,diagnose').split(',');

/**
 * The tests that a mutated program is put to: the pure ones of the folders that are mutated. Left out is what takes long and finds
 * what others find: it would be run again for every mutant that it passes through.
 */
export default defineConfig({
  test: {
    include: folders.map((folder) => `tests/${folder}/**/*.test.ts`),
    exclude: [
      'tests/circuit/mutated.test.ts',
      'tests/circuit/anyText.test.ts',
      'tests/circuit/reach.test.ts',
      'tests/circuit/faulty.test.ts',
      'tests/solve/linearAlgebra.test.ts',
      'tests/circuit/{readCircuit,edit/steps,treeMemory}.test.ts',
      'tests/diagnose/{library,laws,cases,screen,technician,proof}.test.ts',
    ],
    testTimeout: 120_000,
    environment: 'node',
  },
});
