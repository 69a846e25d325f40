import { box, type PartSymbol } from './shape.ts';

export const resistor: PartSymbol = { role: 'series', height: 38, left: 8, right: 8, shapes: [box(14, 38)] };
