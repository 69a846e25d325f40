import { type Io, nodeIo } from '../../src/cli/io.ts';

export type Said = { readonly io: Io; readonly out: () => string; readonly err: () => string };

/** An Io that keeps what is printed; files are real, or those given here by name. */
export function fakeIo(files: Readonly<Record<string, string>> = {}, more: Partial<Io> = {}): Said {
  const out: string[] = [];
  const err: string[] = [];
  const real = nodeIo();
  const io: Io = {
    ...real,
    readFile: (path) => (Object.hasOwn(files, path) ? { ok: true, value: files[path]!, problems: [] } : real.readFile(path)),
    readBytes: (path) =>
      Object.hasOwn(files, path) ? { ok: true, value: new TextEncoder().encode(files[path]), problems: [] } : real.readBytes(path),
    print: (text) => void out.push(text),
    printError: (text) => void err.push(text),
    columns: 80,
    colour: false,
    colourError: false,
    ...more,
  };
  return { io, out: () => out.join('\n'), err: () => err.join('\n') };
}
