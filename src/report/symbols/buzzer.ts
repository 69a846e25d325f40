import { type PartSymbol, stroke } from './shape.ts';

export const buzzer: PartSymbol = {
  role: 'load',
  height: 32,
  left: 4,
  right: 17,
  shapes: [stroke('M0 -16A16 16 0 0 1 0 16Z', { fill: 'sheet' }), stroke('M-3 -16V16')],
};
