/**
 * Changes the program one piece at a time and sees whether a test notices: `npm run mutate` for solve, faults, diagnose and circuit,
 * `npm run mutate -- faults` for one folder, `npm run mutate -- src/solve/starMesh.ts` for one file, `-- --threads 2` for more at once.
 * Takes hours for all of it. What survived is printed, with its place; the whole report is artifacts/mutation.json.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const here = fileURLToPath(new URL('.', import.meta.url));
const asked = process.argv.slice(2);
const threadsAt = asked.indexOf('--threads');
const threads = threadsAt < 0 ? '1' : asked.splice(threadsAt, 2)[1];
const wanted = asked.length > 0 ? asked : ['solve', 'faults', 'diagnose', 'circuit'];
const files = wanted.map((word) => (word.endsWith('.ts') ? word : `src/${word}/*.ts`));

if (!existsSync(`${here}node_modules`)) {
  spawnSync('npm', ['ci', '--prefix', here, '--silent', '--no-audit', '--no-fund', '--legacy-peer-deps'], { stdio: 'inherit' });
}
const tool = `${here}node_modules/@stryker-mutator/core/bin/stryker.js`;
const settings = ['--mutate', files.join(','), '--concurrency', threads];
/** Tests of the folder itself; a file is put to the tests of its own folder. */
const folders = [...new Set(files.map((file) => file.split('/')[1]))].join(',');
const env = { ...process.env, MUTATED_FOLDERS: folders };
const { status } = spawnSync(process.execPath, [tool, 'run', 'tests/mutation/stryker.config.json', ...settings], { stdio: 'inherit', env });
process.exitCode = status ?? 1;
