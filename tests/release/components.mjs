/**
 * Writes the list of what the release is made of, CycloneDX 1.5, to dist/components.cdx.json: every package that the program runs with,
 * its version, licence and digest, as the lockfile has them. Nothing in it changes with the day or the machine.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';

const top = new URL('../../', import.meta.url);
const { name, version } = JSON.parse(readFileSync(new URL('package.json', top), 'utf8'));
const npm = ['sbom', '--sbom-format', 'cyclonedx', '--package-lock-only', '--omit', 'dev'];
const list = JSON.parse(execFileSync('npm', npm, { cwd: top, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }));
const { serialNumber: _number, metadata, ...rest } = list;
const { timestamp: _time, component, ...about } = metadata;
const release = { ...rest, metadata: { ...about, component: { ...component, name, version } } };
mkdirSync(new URL('dist/', top), { recursive: true });
writeFileSync(new URL('dist/components.cdx.json', top), `${JSON.stringify(release, null, 1)}\n`);
