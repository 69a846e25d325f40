import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Version of the package that this file belongs to, built or not. */
export function version(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json')) && dirname(folder) !== folder) folder = dirname(folder);
  const file = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { version?: string };
  return file.version ?? 'unknown';
}
