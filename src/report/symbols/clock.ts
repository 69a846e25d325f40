import { box, type PartSymbol, stroke } from './shape.ts';

export const clock: PartSymbol = { role: 'load', height: 34, left: 18, right: 18, shapes: [box(34, 34), stroke('M0 -10V0L7 5')] };
