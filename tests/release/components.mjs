/**
 * Writes the list of what the release is made of, CycloneDX 1.5, to dist/components.cdx.json: every package that the program runs with,
 * its version, licence and digest, as the lockfile has them. Nothing in it changes with the day or the machine.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';

const top = new URL('../../', import.meta.url);
const { name, version } = JSON.parse(readFileSync(new URL('package.json', top), 'utf8'));
// Told to leave out what only development needs, npm also leaves out what both need: all is listed, and the lockfile says what runs.
const npm = ['sbom', '--sbom-format', 'cyclonedx', '--package-lock-only'];
const list = JSON.parse(execFileSync('npm', npm, { cwd: top, encoding: 'utf8', maxBuffer: 2 ** 26, stdio: ['ignore', 'pipe', 'ignore'] }));
const { packages } = JSON.parse(readFileSync(new URL('package-lock.json', top), 'utf8'));
const runs = ([path, { dev, devOptional, optional }]) => path !== '' && !dev && !devOptional && !optional;
const running = new Set(
  Object.entries(packages)
    .filter(runs)
    .map(([path, { version: of }]) => `${path.replace(/^.*node_modules\//, '')}@${of}`),
);
const components = list.components.filter((c) => running.has(`${c.name}@${c.version}`));
const { component, tools } = list.metadata;
const known = new Set([component['bom-ref'], ...components.map((c) => c['bom-ref'])]);
const dependencies = list.dependencies
  .filter((d) => known.has(d.ref))
  .map((d) => ({ ...d, dependsOn: d.dependsOn.filter((ref) => known.has(ref)) }));
const { $schema, bomFormat, specVersion } = list;
const metadata = { tools, component: { ...component, name, version } };
const release = { $schema, bomFormat, specVersion, version: 1, metadata, components, dependencies };
mkdirSync(new URL('dist/', top), { recursive: true });
writeFileSync(new URL('dist/components.cdx.json', top), `${JSON.stringify(release, null, 1)}\n`);
