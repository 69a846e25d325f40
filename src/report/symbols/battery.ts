import { type PartSymbol, stroke } from './shape.ts';

/** Two cells: the long thin line of each is its plus. */
export const battery: PartSymbol = {
  isPolar: true,
  role: 'supply',
  height: 38,
  left: 19,
  right: 19,
  shapes: [
    stroke('M-18 -18H18M-18 6H18', { line: 2.4 }),
    stroke('M-10 -6H10M-10 17H10', { line: 5 }),
    stroke('M0 -6V6', { line: 1.2, dash: '2 2' }),
  ],
};
