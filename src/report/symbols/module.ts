import { box, type PartSymbol, stroke } from './shape.ts';

export const module: PartSymbol = { role: 'load', height: 34, left: 18, right: 18, shapes: [box(34, 34), stroke('M-8 -8H8V8H-8Z')] };
