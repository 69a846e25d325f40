import { type PartSymbol, stroke } from './shape.ts';

/** Conducts downwards as drawn. */
export const diode: PartSymbol = {
  isPolar: true,
  role: 'series',
  height: 30,
  left: 10,
  right: 10,
  shapes: [stroke('M0 -15V15'), stroke('M-9 -8H9L0 7Z', { fill: 'sheet' }), stroke('M-9 8H9')],
};
