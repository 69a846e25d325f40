import { dot, type PartSymbol, ring, stroke } from './shape.ts';

export const gauge: PartSymbol = {
  role: 'load',
  height: 34,
  left: 18,
  right: 18,
  shapes: [ring(17), stroke('M-6 9L7 -9M7 -9L2 -7M7 -9L6.4 -3.6'), dot(2, -6, 9)],
};
