import { box, type PartSymbol, stroke } from './shape.ts';

/** Winding that moves a valve or a bolt. */
export const solenoid: PartSymbol = { role: 'load', height: 30, left: 14, right: 14, shapes: [box(26, 30), stroke('M-13 15L13 -15')] };
