import { defineConfig } from 'vitest/config';

/** Files that put something in the place of a module, which would reach every file that shares it. */
const standIns = ['tests/cli/losingNothing.test.ts'];

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', '**/node_modules/**', ...standIns],
          environment: 'node',
          // One worker a core, where the default leaves one core idle; what is tested is pure, so files may share its modules.
          maxWorkers: 2,
          isolate: false,
          // A search makes much that lives briefly: with a young generation of this size it took an eighth less time (measured once).
          execArgv: ['--min-semi-space-size=64', '--max-semi-space-size=128'],
          // Generous: a busy machine is slow, and no test asserts a time.
          testTimeout: 120_000,
          hookTimeout: 180_000,
        },
      },
      { test: { name: 'stand-ins', include: standIns, environment: 'node', testTimeout: 120_000, sequence: { groupOrder: 1 } } },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          // Hours of use are a command of their own: npm run hours.
          exclude: process.env['HOURS'] === undefined ? ['tests/browser/hours.test.ts'] : [],
          environment: 'node',
          testTimeout: 120_000,
          hookTimeout: 180_000,
          // Each file has a browser and a server of its own; they mostly wait.
          maxWorkers: 2,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
