import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, dirname, join } from 'node:path';
import { brotliDecompressSync } from 'node:zlib';
import { type Browser, type BrowserContext, chromium } from 'playwright-core';

type Found = { from: string; path: string; env: Record<string, string> };
const systemNames = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'];

type Launching = { readonly executablePath: string; readonly args: string[]; readonly env: Record<string, string> };

export const launchBrowser = (): Promise<Browser> => launched((options) => chromium.launch(options));

/** A browser that keeps what its pages store in a folder, so that it can be killed and opened again. */
export const launchKeeping = (folder: string): Promise<BrowserContext> =>
  launched((options) => chromium.launchPersistentContext(folder, { ...options, viewport: { width: 1440, height: 900 } }));

/** First of: DETENT_CHROMIUM, a Chromium on PATH, the one that npm brought (Linux on x86-64). Never skips: throws with what to do. */
async function launched<T>(launch: (options: Launching) => Promise<T>): Promise<T> {
  const tried: string[] = [];
  for (const look of [fromEnvironment, fromSystem, fromPackage])
    try {
      const found = look();
      if (found === undefined) continue;
      tried.push(`${found.from}: ${found.path}`);
      return await launch({
        executablePath: found.path,
        args: ['--no-sandbox'],
        env: { ...process.env, ...found.env } as Record<string, string>,
      });
    } catch (e) {
      tried.push(reason(e));
      if (look === fromEnvironment) break; // asked for by name: nothing else may stand in for it
    }
  throw new Error(
    `No Chromium could be started; the browser tests prove the web view and are never skipped.\n  ${tried.join('\n  ') || 'none found'}\n` +
      'Install one (Debian: apt-get install chromium) or set DETENT_CHROMIUM to its path.',
  );
}

function fromEnvironment(): Found | undefined {
  const path = process.env['DETENT_CHROMIUM'];
  if (!path) return undefined;
  if (!existsSync(path)) throw new Error(`DETENT_CHROMIUM names ${path}, which does not exist`);
  return { from: 'DETENT_CHROMIUM', path, env: {} };
}

function fromSystem(): Found | undefined {
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  const path = systemNames.flatMap((name) => folders.map((f) => join(f, name))).find((p) => existsSync(p));
  return path === undefined ? undefined : { from: 'system', path, env: {} };
}

/** Unpacks into node_modules/.cache once, under a temporary name first, so that a broken-off or parallel start leaves nothing half done. */
function fromPackage(): Found | undefined {
  if (process.platform !== 'linux' || process.arch !== 'x64') return undefined;
  const packed = join(dirname(createRequire(import.meta.url).resolve('@sparticuz/chromium')), '..', '..', 'bin');
  const home = join(packed, '..', '..', '..', '.cache', 'detent-chromium');
  const path = join(home, 'chromium');
  if (!existsSync(path)) {
    const draft = `${home}.${process.pid}`;
    mkdirSync(draft, { recursive: true });
    for (const name of ['swiftshader', 'al2023', 'fonts']) unpack(join(packed, `${name}.tar.br`), draft);
    writeExecutable(join(packed, 'chromium.br'), join(draft, 'chromium'));
    try {
      renameSync(draft, home);
    } catch {
      rmSync(draft, { recursive: true, force: true }); // another process was first
    }
  }
  // The package also carries the shared libraries that a bare system lacks (nss, nspr, expat), and one font family.
  const runsAsItIs = spawnSync(path, ['--version']).status === 0;
  const env = runsAsItIs ? {} : { LD_LIBRARY_PATH: join(home, 'lib'), FONTCONFIG_PATH: join(home, 'fonts') };
  return { from: '@sparticuz/chromium', path, env };
}

function unpack(tarball: string, into: string): void {
  const { status, stderr } = spawnSync('tar', ['-x', '-C', into], { input: brotliDecompressSync(readFileSync(tarball)), encoding: 'utf8' });
  if (status !== 0) throw new Error(`tar could not unpack ${tarball}: ${stderr}`);
}

function writeExecutable(packed: string, path: string): void {
  writeFileSync(path, brotliDecompressSync(readFileSync(packed)), { mode: 0o755 });
}

/** What the browser itself said, without the long list of its arguments. */
function reason(e: unknown): string {
  const lines = String(e).split('\n');
  const said = lines.filter((line) => line.includes('[err]')).slice(0, 5);
  return [lines[0], ...new Set(said)].join('\n    ');
}
