/** Titles of what several parts quote. `secondary` = read in a copy, not in the document itself. */
export const estimate = 'estimate';
export const practice = 'common practice, no source';
export const fromMemory = 'from memory';
