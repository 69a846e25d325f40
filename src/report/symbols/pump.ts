import { letter, type PartSymbol, ring, stroke } from './shape.ts';

/** A motor with the triangle of flow under its letter. */
export const pump: PartSymbol = {
  role: 'load',
  height: 34,
  left: 18,
  right: 18,
  shapes: [ring(17), letter('M', 2, 15), stroke('M-6 5H6L0 12Z', { line: 0, fill: 'ink' })],
};
