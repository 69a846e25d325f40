import type { Command } from '../command.ts';

/**
 * Every command, in the order of the help. A new one is one file here and one line. Each file is loaded when its
 * command is called, so that `table` does not wait for the drawing and the exercises.
 */
const loaders: Readonly<Record<string, () => Promise<Command>>> = {
  parts: async () => (await import('./parts.ts')).parts,
  check: async () => (await import('./check.ts')).check,
  table: async () => (await import('./table.ts')).table,
  trace: async () => (await import('./trace.ts')).trace,
  play: async () => (await import('./play.ts')).play,
  draw: async () => (await import('./draw.ts')).draw,
  faults: async () => (await import('./faults.ts')).faults,
  diagnose: async () => (await import('./diagnose.ts')).diagnose,
  drain: async () => (await import('./drain.ts')).drain,
  plan: async () => (await import('./plan.ts')).plan,
  testable: async () => (await import('./testable.ts')).testable,
  practise: async () => (await import('./practise.ts')).practise,
  open: async () => (await import('./open.ts')).open,
  import: async () => (await import('./import.ts')).importList,
  export: async () => (await import('./export.ts')).exportList,
  fit: async () => (await import('./fit.ts')).fit,
  compare: async () => (await import('./compare.ts')).compare,
};

export const commandNames: readonly string[] = Object.keys(loaders);

export function commandNamed(name: string): Promise<Command> | undefined {
  return Object.hasOwn(loaders, name) ? loaders[name]?.() : undefined;
}

/** All of them, for the help. */
export function allCommands(): Promise<readonly Command[]> {
  return Promise.all(Object.values(loaders).map((load) => load()));
}
