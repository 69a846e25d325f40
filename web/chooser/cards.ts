import type { LibraryCard } from '../../src/report/libraryCard.ts';

const cards = import.meta.glob<LibraryCard>('../../circuits/*.yaml', { query: '?card', import: 'default', eager: true });

/** Every circuit of the library with its picture and its demos, by name (see `circuitCards` in vite.config.ts). */
export const libraryCards = Object.entries(cards).map(([path, card]) => ({
  name: path.slice(path.lastIndexOf('/') + 1, -'.yaml'.length),
  ...card,
}));
