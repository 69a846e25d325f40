import { letter, type PartSymbol, ring } from './shape.ts';

export const generator: PartSymbol = { role: 'supply', height: 34, left: 18, right: 18, shapes: [ring(17), letter('G')] };
