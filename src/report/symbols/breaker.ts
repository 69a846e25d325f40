import { box, type PartSymbol, stroke } from './shape.ts';

/** Circuit breaker: the box of a fuse with the bow of its bimetal. */
export const breaker: PartSymbol = {
  role: 'protect',
  height: 32,
  left: 8,
  right: 8,
  shapes: [box(14, 32), stroke('M0 -16V-9H-4V0H4V9H0V16', { line: 1.6 })],
};
