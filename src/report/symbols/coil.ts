import { type PartSymbol, stroke } from './shape.ts';

/** Three bows and a core. */
export const coil: PartSymbol = {
  role: 'load',
  height: 50,
  left: 2,
  right: 18,
  shapes: [stroke('M0 -25C11 -25 11 -8.4 0 -8.4C11 -8.4 11 8.2 0 8.2C11 8.2 11 25 0 25'), stroke('M13 -22V22M17 -22V22', { line: 1.8 })],
};
