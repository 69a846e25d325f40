import type { Problem } from '../../src/circuit/problem.ts';
import type { Fit } from '../../src/solve/fit.ts';

/** What the page may ask of the worker that fits. `text` is the circuit with the fitted figures. */
export type FitCalls = {
  fit: {
    takes: { readonly text: string; readonly phrases: readonly string[] };
    gives: { readonly problems: readonly Problem[] } & Partial<Pick<Fit, 'figures' | 'readings' | 'disagree'> & { readonly text: string }>;
  };
};
