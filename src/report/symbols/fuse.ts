import { box, type PartSymbol, stroke } from './shape.ts';

export const fuse: PartSymbol = {
  role: 'protect',
  height: 30,
  left: 8,
  right: 8,
  shapes: [box(14, 30), stroke('M0 -15V15', { line: 1.6 })],
};
