import { box, type PartSymbol, stroke } from './shape.ts';

/** Fusible link: an S through the box. */
export const link: PartSymbol = {
  role: 'protect',
  height: 32,
  left: 8,
  right: 8,
  shapes: [box(14, 32), stroke('M0 -16C8 -9 5 -4 0 0S-8 9 0 16', { line: 1.6 })],
};
