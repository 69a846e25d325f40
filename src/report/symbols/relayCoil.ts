import { box, type PartSymbol, stroke } from './shape.ts';

/** Winding that moves a contact. */
export const relayCoil: PartSymbol = { role: 'load', height: 20, left: 16, right: 16, shapes: [box(30, 20), stroke('M-6 10L6 -10')] };
