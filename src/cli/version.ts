import { readFileSync } from 'node:fs';

/** Version of the package that this file was built from. */
export function version(): string {
  const file = JSON.parse(readFileSync(new URL('../../../package.json', import.meta.url), 'utf8')) as { version?: string };
  return file.version ?? 'unknown';
}
