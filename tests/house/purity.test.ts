import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '..', '..');

/** Every TypeScript file under a folder, as /src/solve/wire.ts. */
function filesIn(folder: string): readonly string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((f) => f.isFile() && f.name.endsWith('.ts'))
    .map((f) => `/${relative(root, join(f.parentPath, f.name))}`);
}

const impure = [
  'document.title;',
  'process.exit(0);',
  "console.log('x');",
  'performance.now();',
  'setTimeout(() => 0, 1);',
  'fetch;',
  "import 'node:fs';",
  "import { readFileSync } from 'fs'; readFileSync;",
];

test('what src is compiled with sees neither DOM nor Node', () => {
  // The compiler settings of src, on a folder of their own: writing into src would disturb whoever compiles it meanwhile.
  const folder = join(root, 'node_modules', '.cache', `impure-${process.pid}`);
  mkdirSync(folder, { recursive: true });
  try {
    const options = { composite: false, noEmit: true, rootDir: folder };
    const config = { extends: join(root, 'src', 'tsconfig.json'), compilerOptions: options, include: [folder], exclude: [] };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(config));
    for (const [k, line] of impure.entries()) writeFileSync(join(folder, `f${k}.ts`), `export {};\n${line}\n`);
    const compiler = join(root, 'node_modules', 'typescript', 'bin', 'tsc');
    const { stdout } = spawnSync(process.execPath, [compiler, '-p', folder, '--pretty', 'false'], { encoding: 'utf8' });
    expect(impure.filter((_, k) => new RegExp(`f${k}\\.ts\\(\\d+,\\d+\\): error`).test(stdout))).toEqual(impure);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}, 60_000);

/** Each folder may import from itself and from those left of it. */
const order = ['circuit', 'parts', 'solve', 'play', 'faults', 'diagnose', 'drain', 'practice', 'report', 'cli'];
const rank = (path: string) => order.indexOf(/\/src\/([^/]+)\//.exec(path)?.[1] ?? '');
const sources = filesIn('src');
const importsOf = (file: string) =>
  [...readFileSync(join(root, file), 'utf8').matchAll(/from '(\.[^']*)'/g)].map((m) => new URL(m[1]!, `file://${file}`).pathname);

test('every file of src stands in a folder of the map', () => {
  expect(sources.filter((file) => rank(file) < 0)).toEqual([]);
});

test('src imports only leftwards along the map', () => {
  const wrong = sources.flatMap((file) =>
    importsOf(file)
      .filter((target) => rank(target) < 0 || rank(target) > rank(file))
      .map((target) => `${file} imports ${target}`),
  );
  expect(wrong).toEqual([]);
});

test('the command line and the web view never import each other', () => {
  const wrong = [...filesIn('web'), ...sources].flatMap((file) =>
    importsOf(file)
      .filter((target) => (file.startsWith('/web/') ? target.startsWith('/src/cli/') : target.startsWith('/web/')))
      .map((target) => `${file} imports ${target}`),
  );
  expect(wrong).toEqual([]);
});

test('no clock and no chance of its own in src: callers pass times and seeds in', () => {
  // Both belong to the language itself, so the compiler cannot forbid them.
  const wrong = sources.filter(
    (file) => !file.startsWith('/src/cli/') && /\bDate\.now\b|\bnew Date\b|\bMath\.random\b/.test(readFileSync(join(root, file), 'utf8')),
  );
  expect(wrong).toEqual([]);
});

test('only src/parts and the reader of files look at which kind a part is', () => {
  const wrong = sources.filter(
    (file) => !/^\/src\/(parts|circuit|cli)\//.test(file) && /\.kind(\.kind)?\s*[!=]==\s*'/.test(readFileSync(join(root, file), 'utf8')),
  );
  expect(wrong).toEqual([]);
});
