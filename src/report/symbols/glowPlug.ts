import { box, type PartSymbol, stroke } from './shape.ts';

/** A heating wire in a plug. */
export const glowPlug: PartSymbol = {
  role: 'load',
  height: 36,
  left: 10,
  right: 10,
  shapes: [box(18, 36), stroke('M0 -18V-8C8 -8 8 0 0 0S-8 8 0 8V18', { line: 1.6 })],
};
