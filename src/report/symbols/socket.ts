import { dot, type PartSymbol, stroke } from './shape.ts';

export const socket: PartSymbol = {
  role: 'load',
  height: 34,
  left: 18,
  right: 18,
  shapes: [stroke('M-17 9A17 17 0 0 1 17 9', { fill: 'sheet' }), stroke('M0 -17V-8M-17 9H17M0 9V17'), dot(3, 0, 1)],
};
