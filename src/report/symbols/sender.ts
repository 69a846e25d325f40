import { box, type PartSymbol, stroke } from './shape.ts';

/** A resistance that a float or heat changes. */
export const sender: PartSymbol = {
  role: 'load',
  height: 38,
  left: 15,
  right: 15,
  shapes: [box(14, 38), stroke('M-14 16L13 -15M13 -15L6.5 -13M13 -15L12.4 -8.2', { line: 1.8 })],
};
