import { letter, type PartSymbol, ring, stroke } from './shape.ts';

/** The armature of a starter: a motor with the toothed wheel on its rim. */
export const starter: PartSymbol = {
  role: 'load',
  height: 38,
  left: 20,
  right: 20,
  shapes: [stroke('M-13 -19h26M-13 19h26', { line: 3 }), ring(17), letter('M')],
};
