import { type PartSymbol, ring, stroke } from './shape.ts';

/** A source of steady current, flowing up out of its top. */
export const currentSupply: PartSymbol = {
  isPolar: true,
  role: 'supply',
  height: 34,
  left: 18,
  right: 18,
  shapes: [ring(17), stroke('M0 11V-10M-5 -4L0 -11L5 -4')],
};
