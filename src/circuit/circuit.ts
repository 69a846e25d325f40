import type { Part } from './part.ts';

/** Terminals are written `PART.TERMINAL`; besides them there are two common nodes. */
export const GROUND = 'ground';
export const BLOCK = 'block';

/** What makes the engine turn and run, by part id. */
export type Engine = {
  readonly crank: string;
  readonly spark: readonly string[];
  readonly fuel: readonly string[];
  /** Parts that stop a running engine while they work: a stop solenoid that is energised to stop. */
  readonly stops?: readonly string[];
  readonly drives: readonly string[];
};

/**
 * A circuit, read and checked. Wires are parts of kind `wire` with terminals 1 and 2; `attached` says where each
 * wire end and each named joint is fastened. Immutable.
 */
export type Circuit = {
  readonly title: string;
  readonly about?: string;
  /** °C, 20 unless the file says otherwise. */
  readonly ambient: number;
  readonly cautions: readonly string[];
  /** All parts and wires, in file order (parts first). */
  readonly parts: ReadonlyMap<string, Part>;
  /** Wire end -> where it is fastened: ['W7.1', 'S1.15'], ['W9.2', 'ground']. */
  readonly attached: readonly (readonly [string, string])[];
  readonly engine?: Engine;
};
