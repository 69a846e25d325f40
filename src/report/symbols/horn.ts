import { type PartSymbol, stroke } from './shape.ts';

export const horn: PartSymbol = {
  role: 'load',
  height: 32,
  left: 9,
  right: 18,
  shapes: [stroke('M-8 -16H4V16H-8Z', { fill: 'sheet' }), stroke('M4 -7L17 -14V14L4 7', { fill: 'sheet' })],
};
