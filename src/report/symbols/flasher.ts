import { box, type PartSymbol, stroke } from './shape.ts';

export const flasher: PartSymbol = {
  role: 'series',
  height: 34,
  left: 18,
  right: 18,
  shapes: [box(34, 34), stroke('M-11 7H-4V-7H4V7H11')],
};
