import { type PartSymbol, stroke } from './shape.ts';

/** A connector's pin: a small cell across the wire. No arrow, which would look like the sign of a current. */
export const pin: PartSymbol = {
  role: 'pin',
  height: 7,
  left: 6,
  right: 6,
  shapes: [stroke('M-5.5 -3.5H5.5V3.5H-5.5Z', { fill: 'sheet', line: 1.6 })],
};
