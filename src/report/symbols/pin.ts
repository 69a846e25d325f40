import { type PartSymbol, stroke } from './shape.ts';

/** A connector's pin: the fork of a plug on the wire. */
export const pin: PartSymbol = {
  role: 'pin',
  height: 10,
  left: 6,
  right: 6,
  shapes: [stroke('M-5.5 -3.5L0 2L5.5 -3.5', { line: 1.8 }), stroke('M-5.5 1.5L0 7L5.5 1.5', { line: 1.8 })],
};
