import type { PackedTree } from '../src/circuit/packedTree.ts';

/** Its text, and what a parser makes of it (see `packedCircuits` in vite.config.ts). */
export type LibraryCircuit = { readonly text: string; readonly tree: PackedTree };

/** Title and first words of each circuit, known without its text (see `circuitHeads` in vite.config.ts). */
const heads = import.meta.glob<{ readonly title: string; readonly about: string }>('../circuits/*.yaml', {
  query: '?head',
  import: 'default',
  eager: true,
});
const circuits = import.meta.glob<LibraryCircuit>('../circuits/*.yaml', { query: '?packed', import: 'default' });

const nameOf = (path: string) => path.slice(path.lastIndexOf('/') + 1, -'.yaml'.length);

/** The circuits that come with the program, by name: `light-van`. */
export const libraryHeads = Object.entries(heads).map(([path, head]) => ({ name: nameOf(path), ...head }));

/** A circuit of the library; undefined for a name that it does not have. */
export async function libraryCircuit(name: string): Promise<LibraryCircuit | undefined> {
  return circuits[`../circuits/${name}.yaml`]?.();
}
