import { type PartSymbol, ring, stroke } from './shape.ts';

/** A bench supply: plus on top. */
export const supply: PartSymbol = {
  isPolar: true,
  role: 'supply',
  height: 34,
  left: 18,
  right: 18,
  shapes: [ring(17), stroke('M-5 -7H5M0 -12V-2M-5 8H5')],
};
