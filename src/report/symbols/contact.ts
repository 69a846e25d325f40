import { dot, type PartSymbol, ring, type Shape, stroke } from './shape.ts';

/** Fixed ring on top, hinge at the bottom; an open blade leans 12 px to the left. */
export const contactShapes: readonly Shape[] = [
  stroke('M0 17.4L-12 -13', { line: 3, when: 'open' }),
  stroke('M0 17.4L-1.2 -15', { line: 3, when: 'closed' }),
  ring(2.6, 0, -16.4),
  dot(3.2, 0, 17),
];

export const contact: PartSymbol = { role: 'contact', height: 40, left: 14, right: 5, shapes: contactShapes };
