import { box, type PartSymbol, stroke } from './shape.ts';

export const stabiliser: PartSymbol = { role: 'load', height: 34, left: 18, right: 18, shapes: [box(34, 34), stroke('M-9 -4H9M-9 4H9')] };
