/**
 * Changes the program one piece at a time and sees whether a test notices: `npm run mutate` for solve, faults, diagnose and circuit,
 * `npm run mutate -- faults` for one folder, `npm run mutate -- src/solve/starMesh.ts` for one file, `-- --threads 2` for more at once,
 * `-- --tell` for what is known so far. One file after the other, each kept in artifacts/mutation: broken off, it goes on with the file
 * it was at; a file whose text and tests have not changed since is not tried again. Of a changed one only what may have changed is.
 * Takes hours for all of it. What survived is printed, with its place, and the score of every folder at the end.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const here = fileURLToPath(new URL('.', import.meta.url));
process.chdir(`${here}../..`);
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { threads: { type: 'string', default: '1' }, tell: { type: 'boolean', default: false } },
});
const folders = ['solve', 'faults', 'diagnose', 'circuit'];
const wanted = positionals.length > 0 ? positionals : folders;
const files = wanted.flatMap((word) => (word.endsWith('.ts') ? [word] : filesOf(word)));
const kept = 'artifacts/mutation';
mkdirSync(kept, { recursive: true });

if (!values.tell) {
  if (!existsSync(`${here}node_modules`)) {
    spawnSync('npm', ['ci', '--prefix', here, '--silent', '--no-audit', '--no-fund', '--legacy-peer-deps'], { stdio: 'inherit' });
  }
  for (const file of files) tryFile(file);
}
tell();

/** Small files first: they say most in little time. */
function filesOf(folder) {
  const names = readdirSync(`src/${folder}`).filter((name) => name.endsWith('.ts'));
  return names.map((name) => `src/${folder}/${name}`).sort((a, b) => readFileSync(a).length - readFileSync(b).length);
}

function placeOf(file) {
  return `${kept}/${file
    .replace(/^src\//, '')
    .replaceAll('/', '-')
    .replace(/\.ts$/, '')}`;
}

function tryFile(file) {
  const place = placeOf(file);
  const folder = file.split('/')[1];
  const state = stateOf(file, folder);
  if (known(`${place}.state.json`)?.state === state) return;
  const tool = `${here}node_modules/@stryker-mutator/core/bin/stryker.js`;
  const settings = JSON.parse(readFileSync(`${here}stryker.config.json`, 'utf8'));
  const asked = {
    ...settings,
    mutate: [file],
    concurrency: Number(values.threads),
    incremental: true,
    incrementalFile: `${place}.incremental.json`,
    jsonReporter: { fileName: `${place}.json` },
    tempDirName: `.stryker-tmp/${place.split('/').at(-1)}`,
  };
  writeFileSync(`${place}.config.json`, JSON.stringify(asked));
  const env = { ...process.env, MUTATED_FOLDERS: folder };
  const { status } = spawnSync(process.execPath, [tool, 'run', `${place}.config.json`], { stdio: 'inherit', env });
  if (status === 0) writeFileSync(`${place}.state.json`, JSON.stringify({ state }));
  else process.exitCode = 1;
}

/** Of the text and of everything that it is put to. */
function stateOf(file, folder) {
  const sum = createHash('sha256');
  for (const path of [file, `${here}vitest.config.ts`, ...testsOf(folder)]) sum.update(path.replace(here, '')).update(readFileSync(path));
  return sum.digest('hex');
}

function testsOf(folder) {
  const all = readdirSync(`tests/${folder}`, { recursive: true }).map((name) => `tests/${folder}/${name}`);
  return all.filter((path) => path.endsWith('.ts')).sort();
}

function known(path) {
  return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : undefined;
}

/** Killed counts with those that ran into the time limit; what no test reaches counts as survived. */
function tell() {
  for (const folder of new Set(files.map((file) => file.split('/')[1]))) {
    const sum = { killed: 0, survived: 0, run: 0 };
    const all = filesOf(folder);
    for (const file of all) {
      const report = known(`${placeOf(file)}.json`);
      if (!report) continue;
      sum.run++;
      const mutants = Object.values(report.files).flatMap((f) => f.mutants);
      const killed = mutants.filter((m) => m.status === 'Killed' || m.status === 'Timeout').length;
      const survived = mutants.filter((m) => m.status === 'Survived' || m.status === 'NoCoverage').length;
      sum.killed += killed;
      sum.survived += survived;
      console.log(`  ${percent(killed, survived)} ${String(killed + survived).padStart(5)} changes  ${file}`);
    }
    console.log(
      `${folder}: ${percent(sum.killed, sum.survived)} of ${sum.killed + sum.survived} changes noticed, ${sum.run} of ${all.length} files tried`,
    );
  }
}

function percent(killed, survived) {
  return killed + survived === 0 ? '   -  ' : `${((100 * killed) / (killed + survived)).toFixed(1).padStart(5)}%`;
}
