import { contactShapes } from './contact.ts';
import { letter, type PartSymbol } from './shape.ts';

/** A contact that heat works. */
export const temperature: PartSymbol = {
  role: 'contact',
  height: 40,
  left: 24,
  right: 5,
  shapes: [...contactShapes, letter('t°', 10, 14, -17)],
};
