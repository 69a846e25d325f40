import { box, type PartSymbol, stroke } from './shape.ts';

/** A resistance that is meant to be hot. */
export const heater: PartSymbol = {
  role: 'load',
  height: 38,
  left: 8,
  right: 8,
  shapes: [box(14, 38), stroke('M-7 -9.5H7M-7 0H7M-7 9.5H7', { line: 1.6 })],
};
