import type { Terminal } from '../../circuit/part.ts';

/** Feed side and return side of a part with two terminals. */
export const oneAndTwo: readonly Terminal[] = [
  { name: '1', about: 'feed side' },
  { name: '2', about: 'return side' },
];
