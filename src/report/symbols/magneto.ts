import { letter, type PartSymbol, ring } from './shape.ts';

export const magneto: PartSymbol = {
  role: 'load',
  height: 34,
  left: 18,
  right: 18,
  shapes: [ring(17), letter('G', 1, 14), letter('~', 13, 16)],
};
