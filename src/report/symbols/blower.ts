import { letter, type PartSymbol, ring, stroke } from './shape.ts';

/** A motor with a fan wheel under its letter. */
export const blower: PartSymbol = {
  role: 'load',
  height: 34,
  left: 18,
  right: 18,
  shapes: [ring(17), letter('M', 2, 15), stroke('M0 8C-3 4 -9 5 -9 8S-3 12 0 8S9 5 9 8S3 12 0 8Z', { line: 1.4 })],
};
