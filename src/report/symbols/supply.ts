import { letter, type PartSymbol, ring, stroke } from './shape.ts';

/** A bench supply: plus on top. */
export const supply: PartSymbol = {
  role: 'supply',
  height: 34,
  left: 18,
  right: 18,
  shapes: [ring(17), letter('+', 0, 16), stroke('M-5 8H5')],
};
