import { contactShapes } from './contact.ts';
import { type PartSymbol, stroke } from './shape.ts';

/** A contact that is held by hand: a push bar on a dashed link. */
export const button: PartSymbol = {
  role: 'contact',
  height: 40,
  left: 23,
  right: 5,
  shapes: [...contactShapes, stroke('M-7 2H-20', { line: 1.5, dash: '4 3' }), stroke('M-21 -6V10')],
};
