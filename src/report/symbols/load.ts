import { box, type PartSymbol } from './shape.ts';

/** An empty box: whatever has no symbol of its own; its id and name stand beside it. */
export const load: PartSymbol = { role: 'load', height: 34, left: 18, right: 18, shapes: [box(34, 34)] };
