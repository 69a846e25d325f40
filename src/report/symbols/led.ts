import { type PartSymbol, stroke } from './shape.ts';

/** A diode that gives light. */
export const led: PartSymbol = {
  isPolar: true,
  role: 'load',
  height: 34,
  left: 10,
  right: 21,
  shapes: [
    stroke('M0 -17V17'),
    stroke('M-9 -8H9L0 7Z', { fill: 'sheet' }),
    stroke('M-9 8H9'),
    stroke('M11 -4L19 -10M15 -10.5H19.5V-6M12 5L20 -1M16 -1.5H20.5V3', { line: 1.5 }),
  ],
};
