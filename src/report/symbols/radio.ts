import { box, type PartSymbol, stroke } from './shape.ts';

export const radio: PartSymbol = {
  role: 'load',
  height: 34,
  left: 18,
  right: 18,
  shapes: [box(34, 34), stroke('M0 12V-3M-8 -11L0 -3L8 -11')],
};
