import { contactShapes } from './contact.ts';
import { letter, type PartSymbol } from './shape.ts';

/** A contact that pressure works. */
export const pressure: PartSymbol = {
  role: 'contact',
  height: 40,
  left: 22,
  right: 5,
  shapes: [...contactShapes, letter('p', 8, 14, -17)],
};
