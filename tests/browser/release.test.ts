import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

type Component = {
  readonly name: string;
  readonly version: string;
  readonly licenses?: readonly unknown[];
  readonly hashes?: readonly unknown[];
};
/** `devOptional`: only development, or a peer that may be missing, asks for it; `optional`: for one machine only. */
type Locked = { readonly version?: string; readonly dev?: true; readonly devOptional?: true; readonly optional?: true };

/** Stands among the tests of what is built, since the list is written by the build. */
// 2026-11-25: packages that development needs as well were missing, `yaml` among them.
test('the list of components beside the release names every package that the program runs with, its licence and digest, and nothing of the day', () => {
  const text = readFileSync('dist/components.cdx.json', 'utf8');
  const list = JSON.parse(text) as { bomFormat: string; specVersion: string; components: readonly Component[] };
  expect(list).toMatchObject({ bomFormat: 'CycloneDX', specVersion: '1.5' });
  const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as { packages: Record<string, Locked> };
  const running = Object.entries(packages).filter(
    ([path, { dev, devOptional, optional }]) => path !== '' && !dev && !devOptional && !optional,
  );
  const named = running.map(([path, { version }]) => `${path.replace(/^.*node_modules\//, '')}@${version}`);
  const shortName = (name: string, version: string) => `${name}@${version}`;
  expect(list.components.map((c) => shortName(c.name, c.version)).sort()).toEqual([...new Set(named)].sort());
  expect(list.components.filter((c) => !c.licenses?.length || !c.hashes?.length).map((c) => c.name)).toEqual([]);
  expect(text).not.toMatch(/"timestamp"|"serialNumber"/);
});
