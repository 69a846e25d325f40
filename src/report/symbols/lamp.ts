import { type PartSymbol, ring, stroke } from './shape.ts';

export const lamp: PartSymbol = {
  role: 'load',
  height: 30,
  left: 16,
  right: 16,
  shapes: [ring(15), stroke('M-10.6 -10.6L10.6 10.6M10.6 -10.6L-10.6 10.6')],
};
