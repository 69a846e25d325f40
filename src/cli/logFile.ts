import { closeSync, openSync, readSync } from 'node:fs';
import { StringDecoder } from 'node:string_decoder';
import type { Problem, Read } from '../circuit/problem.ts';
import { type Log, LogReader } from '../drain/log/readLog.ts';
import type { Io } from './io.ts';

/** Bytes read at a time, and between two progress lines. */
const piece_bytes = 1 << 18;
const progress_rows = 250_000;

/** Reads a measured log in pieces, however long it is: the limit of other files does not hold for it. */
export function logFile(path: string, io: Pick<Io, 'printError' | 'colourError'>): Read<Log> {
  const reader = new LogReader(path);
  let handle: number | undefined;
  try {
    handle = path === '-' ? 0 : openSync(path, 'r');
    const decoder = new StringDecoder('utf8');
    const bytes = Buffer.allocUnsafe(piece_bytes);
    let said = progress_rows;
    for (let got = readSync(handle, bytes, 0, piece_bytes, null); got > 0; got = readSync(handle, bytes, 0, piece_bytes, null)) {
      reader.push(decoder.write(bytes.subarray(0, got)));
      if (reader.rows < said) continue;
      io.printError(`${path}: ${reader.rows} rows read`);
      said = reader.rows + progress_rows;
    }
    reader.push(decoder.end());
  } catch (error) {
    return { ok: false, problems: [notRead(path, error)] };
  } finally {
    if (handle !== undefined && handle !== 0) closeSync(handle);
  }
  const read = reader.end();
  return read.ok ? { ok: true, value: read.value, problems: read.value.warnings } : { ok: false, problems: read.problems };
}

function notRead(file: string, error: unknown): Problem {
  const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
  const what = code === 'ENOENT' ? `there is no file ${file}` : `${file} cannot be read (${code})`;
  const why = 'without the log there are no steps to find';
  return {
    code: code === 'ENOENT' ? 'file-missing' : 'file-not-readable',
    severity: 'error',
    file,
    line: 1,
    column: 1,
    length: 1,
    what,
    why,
    mend: ['look at the path: it counts from the folder of this shell'],
  };
}
