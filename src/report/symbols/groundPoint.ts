import { type PartSymbol, stroke } from './shape.ts';

/** The sign under a ground bar; wires never meet it, the bar does. */
export const groundPoint: PartSymbol = {
  role: 'ground',
  height: 24,
  left: 14,
  right: 14,
  shapes: [stroke('M0 -12V0M-13 0H13'), stroke('M-8.5 6H8.5M-4 12H4')],
};
