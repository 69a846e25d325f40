import { randomBytes } from 'node:crypto';
import { closeSync, fstatSync, openSync, readdirSync, readSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { nearNames } from '../circuit/nearNames.ts';
import type { Problem, Read } from '../circuit/problem.ts';

/** All that a command may touch of the world outside. Tests give their own. */
export type Io = {
  /** Text of a file, `-` for the standard input. Files over 1 MiB, and what is not text, are problems. */
  readonly readFile: (path: string) => Read<string>;
  /** A file as it is, for what may be saved in another encoding than UTF-8. The same limit. */
  readonly readBytes: (path: string) => Read<Uint8Array>;
  /** Writes under a temporary name beside it and renames: a file is there whole or not at all. */
  readonly writeFile: (path: string, text: string) => Read<undefined>;
  /** A line to the standard output. */
  readonly print: (text: string) => void;
  /** A line to the standard error output. */
  readonly printError: (text: string) => void;
  /** Lines typed by a person; ends with the input. */
  readonly lines: () => AsyncIterable<string>;
  /** Characters per line of the output, 40 to 120; 80 when it is no terminal. */
  readonly columns: number;
  /** Colour on the standard output, and on the error output. */
  readonly colour: boolean;
  readonly colourError: boolean;
};

/** Largest file read, bytes. */
const limit_bytes = 1024 * 1024;

export function nodeIo(): Io {
  const { stdout, stderr, env } = process;
  // https://no-color.org: set and not empty means no colour.
  const allowed = (env['NO_COLOR'] ?? '') === '' && env['TERM'] !== 'dumb';
  return {
    readFile,
    readBytes,
    writeFile,
    print: (text) => void stdout.write(`${text}\n`),
    printError: (text) => void stderr.write(`${text}\n`),
    lines: () => createInterface({ input: process.stdin, terminal: false }),
    columns: stdout.isTTY ? Math.max(40, Math.min(120, stdout.columns ?? 80)) : 80,
    colour: allowed && stdout.isTTY === true,
    colourError: allowed && stderr.isTTY === true,
  };
}

function readFile(path: string): Read<string> {
  const bytes = readBytes(path);
  if (!bytes.ok) return bytes;
  try {
    return { ok: true, value: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes.value), problems: [] };
  } catch (error) {
    return failed(path, ...readingSaid(path, error));
  }
}

function readBytes(path: string): Read<Uint8Array> {
  let handle: number | undefined;
  try {
    handle = path === '-' ? 0 : openSync(path, 'r');
    const stat = fstatSync(handle);
    if (stat.isDirectory()) return failed(path, 'file-is-folder', `${path} is a folder`, 'a file is wanted here', ['name a file in it']);
    if (stat.isFile() && stat.size > limit_bytes) return tooLarge(path);
    const bytes = upTo(handle, limit_bytes + 1);
    if (bytes.length > limit_bytes) return tooLarge(path);
    return { ok: true, value: bytes, problems: [] };
  } catch (error) {
    return failed(path, ...readingSaid(path, error));
  } finally {
    if (handle !== undefined && handle !== 0) closeSync(handle);
  }
}

/** Reads at most so many bytes: a device or a pipe may never end. */
function upTo(handle: number, most: number): Uint8Array {
  const bytes = new Uint8Array(most);
  let length = 0;
  while (length < most) {
    const got = readSome(handle, bytes, length);
    if (got === 0) break;
    length += got;
  }
  return bytes.subarray(0, length);
}

function readSome(handle: number, bytes: Uint8Array, from: number): number {
  for (;;) {
    try {
      return readSync(handle, bytes, from, bytes.length - from, null);
    } catch (error) {
      // A pipe or terminal that has nothing yet: ask again. The end of some pipes comes as EOF.
      if (codeOf(error) === 'EOF') return 0;
      if (codeOf(error) !== 'EAGAIN') throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10);
    }
  }
}

function tooLarge(path: string): Read<never> {
  return failed(path, 'file-too-large', `${path} is larger than 1 MiB (1 048 576 bytes)`, 'files over 1 MiB are not read', [
    'split the file, or leave out what does not belong to it',
  ]);
}

type Said = [code: string, what: string, why: string, mend: readonly string[]];

function readingSaid(path: string, error: unknown): Said {
  const why = 'there is nothing to work on';
  const code = codeOf(error);
  if (code === 'ENOENT' || code === 'ENOTDIR') return ['file-missing', `there is no file ${path}`, why, nearFiles(path)];
  if (code === 'EACCES' || code === 'EPERM')
    return ['file-not-readable', `${path} may not be read by this user`, why, ['change its permissions, or copy it']];
  if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA') return ['file-not-text', `${path} is not text in UTF-8`, why, ['save it as UTF-8']];
  return ['file-not-readable', `${path} cannot be read (${code})`, why, ['try again, or copy the file to another place']];
}

function nearFiles(path: string): readonly string[] {
  try {
    const near = nearNames(basename(path), readdirSync(dirname(path)));
    if (near.length > 0) return [`files with a near name: ${near.map((name) => join(dirname(path), name)).join(', ')}`];
  } catch {
    return [`the folder ${dirname(path)} is not there either`];
  }
  return ['look at the path: it counts from the folder of this shell'];
}

function writeFile(path: string, text: string): Read<undefined> {
  const draft = join(dirname(path), `.${basename(path)}.${randomBytes(4).toString('hex')}.part`);
  try {
    writeFileSync(draft, text, { flag: 'wx' });
    renameSync(draft, path);
    return { ok: true, value: undefined, problems: [] };
  } catch (error) {
    rmSync(draft, { force: true });
    return failed(path, ...writingSaid(path, codeOf(error)));
  }
}

function writingSaid(path: string, code: string): Said {
  const why = 'nothing was written, and what was there before is unchanged';
  if (code === 'ENOSPC' || code === 'EDQUOT')
    return ['disk-full', `there is no room to write ${path}`, why, ['free some room, or write to another disk']];
  if (code === 'EROFS' || code === 'EACCES' || code === 'EPERM')
    return ['not-writable', `${path} may not be written`, why, ['write to another folder']];
  if (code === 'ENOENT' || code === 'ENOTDIR')
    return ['folder-missing', `there is no folder ${dirname(path)}`, why, ['make the folder first, or write to another']];
  if (code === 'EISDIR') return ['file-is-folder', `${path} is a folder`, why, ['name a file in it']];
  return ['not-writable', `${path} cannot be written (${code})`, why, ['write to another place']];
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : String(error);
}

function failed(file: string, code: string, what: string, why: string, mend: readonly string[]): Read<never> {
  const problem: Problem = { code, severity: 'error', file, line: 1, column: 1, length: 1, what, why, mend };
  return { ok: false, problems: [problem] };
}
