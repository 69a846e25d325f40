import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

type Locked = {
  readonly version?: string;
  readonly license?: string;
  readonly integrity?: string;
  readonly resolved?: string;
  readonly dev?: true;
  readonly hasInstallScript?: true;
};
const lockOf = (folder: string): readonly (readonly [path: string, locked: Locked])[] =>
  Object.entries(
    (JSON.parse(readFileSync(join(folder, 'package-lock.json'), 'utf8')) as { packages: Record<string, Locked> }).packages,
  ).filter(([path]) => path !== '');
const nameOf = (path: string) => path.replace(/^.*node_modules\//, '');

/** Packages of the program and of its tests; those of the benchmarks and of the mutation tool, which `npm ci` leaves out. */
const folders = ['.', 'tests/bench', 'tests/mutation'] as const;

/** Licences that let everybody use, change and pass on the program under its own. */
const free = [
  'MIT',
  'ISC',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  '0BSD',
  'Unlicense',
  'MIT OR Apache-2.0',
  '(MIT OR Apache-2.0)',
  'CC0-1.0',
  'BlueOak-1.0.0',
  'Python-2.0',
];
/** Others, each with what it is good for. */
const named: Readonly<Record<string, string>> = {
  '@fontsource/barlow-semi-condensed': 'OFL-1.1: a font, which may travel with any program',
  numeric: 'its own page says MIT, its package file nothing; only the benchmarks load it, to compare with',
};
/** Files of these stay under it; none of them becomes part of the program. */
const toolsOnly = ['MPL-2.0', 'CC-BY-4.0', 'CC-BY-3.0'];

test.each(folders)('%s: every package has a licence that allows what is done with it', (folder) => {
  const wrong = lockOf(folder).filter(
    ([path, { license, dev }]) =>
      !free.includes(license ?? 'none') &&
      named[nameOf(path)] === undefined &&
      !(toolsOnly.includes(license ?? '') && (dev || folder !== '.')),
  );
  expect(wrong.map(([path, { license }]) => `${nameOf(path)}: ${license}`)).toEqual([]);
});

test('the licences of the lockfile are those of the packages installed', () => {
  const installed = lockOf('.').filter(([path]) => existsSync(join(path, 'package.json')));
  const other = installed.filter(([path, { license, version }]) => {
    const held = JSON.parse(readFileSync(join(path, 'package.json'), 'utf8')) as { license?: unknown; version?: string };
    return held.version !== version || (typeof held.license === 'string' && held.license !== license);
  });
  expect(other.map(([path]) => path)).toEqual([]);
  expect(installed.length).toBeGreaterThan(100);
});

test.each(folders)('%s: every package comes from the public registry with its digest', (folder) => {
  const loose = lockOf(folder).filter(
    ([, { integrity, resolved }]) =>
      !integrity?.startsWith('sha512-') || (resolved !== undefined && !resolved.startsWith('https://registry.npmjs.org/')),
  );
  expect(loose.map(([path]) => path)).toEqual([]);
});

test('no package runs a script when it is installed, unless DEVELOPERS.md names it and why', () => {
  const guide = readFileSync('DEVELOPERS.md', 'utf8');
  const running = folders.flatMap((folder) => lockOf(folder).filter(([, { hasInstallScript }]) => hasInstallScript));
  expect(running.map(([path]) => nameOf(path)).filter((name) => !guide.includes(`\`${name}\` runs a script`))).toEqual([]);
});

test('versions are pinned: no package of the project floats', () => {
  const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as Record<string, Record<string, string>>;
  const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version));
  expect(loose).toEqual([]);
});
