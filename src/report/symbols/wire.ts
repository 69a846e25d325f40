import type { PartSymbol } from './shape.ts';

/** A wire is drawn as itself, from terminal to terminal. */
export const wire: PartSymbol = { role: 'wire', height: 0, left: 0, right: 0, shapes: [] };
