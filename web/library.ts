/** Title and first words of each circuit, known without its text (see `circuitHeads` in vite.config.ts). */
const heads = import.meta.glob<{ readonly title: string; readonly about: string }>('../circuits/*.yaml', {
  query: '?head',
  import: 'default',
  eager: true,
});
const texts = import.meta.glob<string>('../circuits/*.yaml', { query: '?raw', import: 'default' });

const nameOf = (path: string) => path.slice(path.lastIndexOf('/') + 1, -'.yaml'.length);

/** The circuits that come with the program, by name: `light-van`. */
export const libraryHeads = Object.entries(heads).map(([path, head]) => ({ name: nameOf(path), ...head }));

/** The text of a circuit of the library; empty for a name that it does not have. */
export async function libraryText(name: string): Promise<string> {
  const path = Object.keys(texts).find((p) => nameOf(p) === name);
  return path === undefined ? '' : ((await texts[path]?.()) ?? '');
}
