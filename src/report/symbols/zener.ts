import { type PartSymbol, stroke } from './shape.ts';

/** Conducts downwards as drawn, and upwards above its voltage: the bar has wings. */
export const zener: PartSymbol = {
  isPolar: true,
  role: 'series',
  height: 30,
  left: 11,
  right: 11,
  shapes: [stroke('M0 -15V15'), stroke('M-9 -8H9L0 7Z', { fill: 'sheet' }), stroke('M-10 12L-9 8H9L10 4')],
};
