const files = import.meta.glob<string>('../circuits/*.yaml', { query: '?raw', import: 'default', eager: true });

/** Texts of the circuits that come with the program, by name: `light-van`. */
export const library: ReadonlyMap<string, string> = new Map(
  Object.entries(files).map(([path, text]) => [path.slice(path.lastIndexOf('/') + 1, -'.yaml'.length), text]),
);
