/**
 * Changes the program one piece at a time and sees whether a test notices: `npm run mutate` for solve, faults, diagnose and circuit,
 * `npm run mutate -- faults` for one folder, `npm run mutate -- src/solve/starMesh.ts` for one file; `--share 0.1` tries one in ten, drawn
 * evenly and always the same ones, `--draw B` another tenth, which no test was written for; `--slow 20` runs tests of up to 20 s too (2);
 * `--minutes 20` stops after a while, `--tell` prints what is known so far, `--survivors` with every change that went unnoticed and that
 * explained.json does not explain, `--rows` those of the draw alone, as rows for that file. Each
 * file's results stand in artifacts/mutation: broken off, it goes on where it was. A change that was noticed is not tried again while the file and the test that noticed it are the same; one that
 * was not is tried again when any test of the folder has changed.
 *
 * What ended no test but the run itself (no end within the limit, a worker that broke or ran out of memory) is counted apart: a busy
 * machine makes such endings too. It is tried once more before it counts, and again with every later call.
 *
 * The pieces come from a public mutation tool; a folder and its tests are bundled once with all the changes that are to be tried, and
 * only the tests that reach a change are run. Changes follow each other in one worker, two of which work side by side; what goes
 * unnoticed there is tried once more in a fresh one, where nothing is remembered from before, and only there by the tests that take
 * long. A start of the test tool itself for each change took a hundred times as long.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { build } from 'vite';
import { apart, countOf, isBrokenOff, isDrawn, isUnnoticed, likely, percent, seen } from './count.mjs';
import { explained, knownAs, rowOf } from './explained.mjs';
import { thinned } from './thin.mjs';

const here = fileURLToPath(new URL('.', import.meta.url));
const top = fileURLToPath(new URL('../../', import.meta.url));
process.chdir(top);
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    minutes: { type: 'string' },
    share: { type: 'string', default: '1' },
    draw: { type: 'string', default: '' },
    slow: { type: 'string', default: '2' },
    tell: { type: 'boolean', default: false },
    survivors: { type: 'boolean', default: false },
    rows: { type: 'boolean', default: false },
  },
});
const share = Number(values.share);
/** A test that took longer once is left out, until its file changes; over the first of these it is kept for last. */
const lateTest_ms = 2000;
const slowTest_ms = Math.max(lateTest_ms, Number(values.slow) * 1000);
/** Workers side by side. */
const lanes = 2;
if (!(share > 0 && share <= 1)) throw new Error(`--share ${values.share}: a number over 0, at most 1`);
const folders = ['faults', 'solve', 'circuit', 'diagnose'];
const wanted = positionals.length > 0 ? positionals : folders;
const files = wanted.flatMap((word) => (word.endsWith('.ts') ? [word] : filesOf(word)));
/** Tests of the folder itself, and of others those that ask it much in little time: what a part or a vehicle shows is told by what is under it. */
const alsoTests = {
  circuit: /^tests\/(faults|parts|report\/circuitEdit)\//,
  solve:
    /^tests\/(circuits\/(?!reckoning)|parts\/(loads|relay|ignition|switches|instruments|solenoids|keySwitch|machines)\.|report\/(seenTable|positionRows|trace)\.|play\/engine\.)/,
};
/** Take long, and find what others find: each would be run again for every change that it passes through. */
const tooLong = /circuits\/(jobs|everyFault|testable|demoStories|stories|library)\.test|solve\/linearAlgebra\.test/;
const kept = 'artifacts/mutation';
const slowTests = `${kept}/slowTests.json`;
mkdirSync(kept, { recursive: true });

if (!values.tell && !values.survivors && !values.rows) {
  if (!existsSync(`${here}node_modules`)) {
    spawnSync('npm', ['ci', '--prefix', here, '--silent', '--no-audit', '--no-fund', '--legacy-peer-deps'], { stdio: 'inherit' });
  }
  const until = Date.now() + Number(values.minutes ?? 1e6) * 60_000;
  for (const folder of new Set(files.map(folderOf))) {
    if (Date.now() < until)
      await tryFiles(
        folder,
        files.filter((file) => folderOf(file) === folder),
        until,
      );
  }
}
tell();
process.exit();

function folderOf(file) {
  return file.split('/')[1];
}

/** Small files first: they say most in little time. */
function filesOf(folder) {
  const names = readdirSync(`src/${folder}`, { recursive: true }).filter((name) => name.endsWith('.ts'));
  return names.map((name) => `src/${folder}/${name}`).sort((a, b) => readFileSync(a).length - readFileSync(b).length);
}

function placeOf(file) {
  return `${kept}/${file
    .replace(/^src\//, '')
    .replaceAll('/', '-')
    .replace(/\.ts$/, '')}.json`;
}

function testsOf(folder) {
  const all = readdirSync('tests', { recursive: true }).map((name) => `tests/${name}`);
  const isWanted = (path) => path.startsWith(`tests/${folder}/`) || alsoTests[folder]?.test(path);
  return all.filter((path) => path.endsWith('.test.ts') && isWanted(path) && !tooLong.test(path)).sort();
}

function sumOf(...paths) {
  const sum = createHash('sha256');
  for (const path of paths) sum.update(readFileSync(path));
  return sum.digest('hex').slice(0, 16);
}

function known(path) {
  return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : undefined;
}

/** All changes of these files, numbered through, and the text of each file with all of them in. */
async function changesOf(paths) {
  const { createInstrumenter } = await import(`${here}node_modules/@stryker-mutator/instrumenter/dist/src/index.js`);
  const { createInjector } = await import(`${here}node_modules/typed-inject/dist/src/index.js`);
  const silent = () => undefined;
  const log = { debug: silent, info: silent, warn: silent, error: silent, isDebugEnabled: () => false };
  const instrumenter = createInjector().provideValue('logger', log).injectFunction(createInstrumenter);
  const contents = new Map(paths.map((path) => [`${top}${path}`, readFileSync(path, 'utf8')]));
  const made = await instrumenter.instrument(
    [...contents].map(([name, content]) => ({ name, mutate: true, content })),
    { plugins: null, ignorers: [], excludedMutations: [], mutationLevel: 'Standard' },
  );
  const mutants = made.mutants.map((m) => {
    const { start, end } = m.location;
    const lines = contents.get(m.fileName).split('\n');
    const before =
      start.line === end.line ? lines[start.line].slice(start.column, end.column) : `${lines[start.line].slice(start.column)} …`;
    const at = `${start.line + 1}:${start.column + 1}`;
    return { file: m.fileName.slice(top.length), id: m.id, at, kind: m.mutatorName, before, after: m.replacement };
  });
  return { texts: new Map(made.files.map((f) => [f.name, f.content])), mutants };
}

/** @param texts  changed files by their whole path; @param tests  entries, in order */
async function bundle(texts, tests) {
  const outDir = `node_modules/.cache/detent-mutation/${process.pid}`;
  const input = Object.fromEntries(tests.map((path, k) => [`t${k}`, path]));
  await build({
    configFile: false,
    logLevel: 'error',
    plugins: [
      {
        name: 'changed',
        enforce: 'pre',
        resolveId: (id) => (id === 'vitest' ? `${here}vitestShim.ts` : undefined),
        load: (id) => texts.get(id),
        transform: (code, id) =>
          id.includes('/tests/')
            ? code
                .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(id).href))
                .replaceAll('.toMatchFileSnapshot(', `.toMatchFileSnapshot(${JSON.stringify(`${dirname(id)}/`)} + `)
            : undefined,
      },
    ],
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir,
      emptyOutDir: true,
      minify: false,
      rollupOptions: { input: { ...input, shim: `${here}vitestShim.ts` }, preserveEntrySignatures: 'exports-only' },
    },
  });
  return `${top}${outDir}`;
}

/** Tries what is open in the files of one folder. */
async function tryFiles(folder, paths, until) {
  const tests = testsOf(folder);
  const { texts, mutants } = await changesOf(paths);
  const reports = paths.map((file) =>
    reportOf(
      file,
      tests,
      mutants.filter((m) => m.file === file),
    ),
  );
  for (const report of reports) write(report);
  const open = reports.flatMap(({ file, report }) => report.mutants.filter((m) => !m.status && isDrawn(file, m, share, values.draw)));
  if (open.length === 0) return;
  const ids = new Set(open.map((m) => m.id));
  const folderOut = await bundle(new Map([...texts].map(([name, text]) => [name, thinned(text, ids)])), tests);
  const shim = `${folderOut}/shim.js`;
  const at = { tests, shim, entryOf: (k) => `${folderOut}/t${k}.js`, seen: await seenBy(tests, folderOut, shim) };
  const place = new Map(reports.flatMap((r) => r.report.mutants.map((m) => [m, r])));
  // What ended the process once is tried alone, after all others.
  const [marked, queue] = [open.filter((m) => m.ended), open.filter((m) => !m.ended)];
  const lane = async (waiting) => {
    const own = { lasting: undefined };
    for (let m = waiting.shift(); m && Date.now() < until; m = waiting.shift()) {
      // A few changes end the whole process (an array beyond all bounds): the next call finds this mark.
      m.isTried = true;
      write(place.get(m));
      await tryChange(m, at, own);
      delete m.isTried;
      write(place.get(m));
    }
    void own.lasting?.terminate();
  };
  await Promise.all(Array.from({ length: lanes }, () => lane(queue)));
  await lane(marked);
  rmSync(folderOut, { recursive: true, force: true });
}

/** What is known of a file's changes, of those that still hold. */
function reportOf(file, tests, mutants) {
  const place = placeOf(file);
  const [source, state] = [sumOf(file), sumOf(file, ...tests)];
  const old = known(place);
  // The numbers of the changes hang on what else is instrumented: a change is known by what it does.
  const nameOf = (m) => `${m.at} ${m.kind} ${m.after}`;
  const before = new Map((old?.source === source ? old.mutants : []).map((m) => [nameOf(m), m]));
  const results = mutants.map(({ file: _file, ...m }) => {
    const was = before.get(nameOf(m));
    if (was?.isTried && was.ended) return { ...m, status: 'broken off', how: 'the process ended' };
    if (was?.isTried) return { ...m, ended: true };
    const holds = was?.by && existsSync(was.by.test) && sumOf(was.by.test) === was.by.sum;
    const isKept = was?.status && !isBrokenOff(was) && old.state === state;
    return holds || isKept ? { ...was, ...m } : m;
  });
  return { file, place, report: { file, source, state, mutants: results } };
}

function write({ place, report }) {
  writeFileSync(place, JSON.stringify(report, null, 1));
}

/** Every test without a change: how long it takes and what it reaches. */
async function seenBy(tests, folderOut, shim) {
  const slow = known(slowTests) ?? {};
  const seen = [];
  const entries = [...tests.entries()];
  const lane = async () => {
    for (let next = entries.shift(); next; next = entries.shift()) {
      const [k, test] = next;
      const sum = sumOf(test);
      const skip = Object.entries(slow[sum] ?? {}).flatMap(([name, took_ms]) => (took_ms >= slowTest_ms ? [name] : []));
      const asked = { mode: 'all', shim, entry: k, path: `${folderOut}/t${k}.js`, skip };
      const said = await answer(started(asked), undefined, 600_000, true);
      if (said.entry === undefined) {
        console.log(`  ${test} does not run here: ${said.failure ?? said.late}`);
        continue;
      }
      const broken = said.tests.filter((t) => t.failed);
      if (broken.length > 0) console.log(`  left out, fails unchanged: ${broken.length} of ${test}: ${broken[0].failed}`);
      const late = said.tests.filter((t) => t.took_ms >= slowTest_ms);
      if (late.length > 0) slow[sum] = { ...slow[sum], ...Object.fromEntries(late.map((t) => [t.name, t.took_ms])) };
      seen.push({ ...said, tests: said.tests.filter((t) => !t.failed && !late.includes(t)) });
    }
  };
  await Promise.all(Array.from({ length: lanes }, lane));
  writeFileSync(slowTests, JSON.stringify({ ...known(slowTests), ...slow }));
  return seen;
}

async function tryChange(m, { tests, shim, entryOf, seen }, own) {
  const reaching = seen.flatMap(({ entry, tests: all, always }) => {
    const direct = all.filter((t) => t.reaches[m.id]);
    return direct.length > 0 || always[m.id] ? [{ entry, direct, all, hits: always[m.id] ?? 0 }] : [];
  });
  if (reaching.length === 0) {
    m.status = 'unreached';
    return;
  }
  const hits = reaching.reduce((sum, r) => sum + r.hits + r.direct.reduce((n, t) => n + t.reaches[m.id], 0), 0);
  const stepsOf = (testsIn) =>
    reaching
      .flatMap((r) => testsIn(r).map((t) => ({ entry: r.entry, path: entryOf(r.entry), name: t.name, took_ms: t.took_ms })))
      .sort((a, b) => a.took_ms - b.took_ms);
  // What is reached while a file loads may show in any test of that file.
  const isStatic = reaching.some((r) => r.hits > 0);
  const isQuick = (t) => t.took_ms < lateTest_ms;
  const steps = stepsOf((r) => (r.hits > 0 ? [...new Set([...r.direct, ...r.all.filter(isQuick)])] : r.direct));
  const change = { steps, mutant: m.id, isStatic, hitLimit: hits * 100 + 1000 };
  const quick = { ...change, isStatic: false, steps: stepsOf((r) => r.direct.filter(isQuick)) };
  let said = {};
  if (quick.steps.length > 0) {
    own.lasting ??= started({ mode: 'lasting', shim });
    said = await answer(own.lasting, quick, limitOf(quick.steps), false);
    if (said.late || said.failure || said.spoilt) {
      void own.lasting.terminate();
      own.lasting = undefined;
    }
  }
  // Unnoticed, broken by what an earlier change left behind, or by a machine that had no time: only a fresh start decides.
  if (said.entry === undefined) said = await answer(started({ mode: 'fresh', shim }), change, limitOf(steps), true);
  if (said.late || said.failure) Object.assign(m, { status: 'broken off', how: said.late ?? said.failure });
  else if (said.entry === undefined) m.status = 'survived';
  else Object.assign(m, { status: 'killed', by: { test: tests[said.entry], sum: sumOf(tests[said.entry]), name: said.name } });
}

function limitOf(steps) {
  return 20_000 + 8 * time(steps);
}

function time(list) {
  return list.reduce((sum, t) => sum + t.took_ms, 0);
}

function started(workerData) {
  const limits = { maxOldGenerationSizeMb: 1500 };
  const worker = new Worker(`${here}worker.mjs`, { workerData, stdout: true, stderr: true, resourceLimits: limits });
  // What breaks it after it was given up is of no matter.
  return worker.on('error', () => undefined);
}

/** What a worker answers, or that it does not. @param ends  it is not asked again */
function answer(worker, question, limit_ms, ends) {
  return new Promise((done) => {
    const end = (said) => {
      clearTimeout(timer);
      worker.off('message', end).off('error', broke).off('exit', left);
      if (ends) void worker.terminate();
      done(said);
    };
    const broke = (e) => end({ failure: String(e?.message ?? e) });
    const left = () => end({ failure: 'ended by itself' });
    const timer = setTimeout(() => end({ late: `no end within ${Math.round(limit_ms / 1000)} s` }), limit_ms);
    worker.on('message', end).on('error', broke).on('exit', left);
    if (question !== undefined) worker.postMessage(question);
  });
}

function tell() {
  for (const folder of new Set(files.map((file) => file.split('/')[1]))) {
    const sum = { killed: 0, survived: 0, broken: 0, explained: 0, run: 0, all: 0 };
    const isKnown = knownAs(explained().changes);
    const all = filesOf(folder);
    for (const file of all) {
      const report = known(placeOf(file));
      if (!report) continue;
      // Of files that were tried whole before, only their part counts: else they would weigh more than others.
      const drawn = report.mutants.filter((m) => isDrawn(file, m, share, values.draw));
      const { killed, survived, broken } = countOf(drawn);
      // A file that was written anew since is none of which the lines are known.
      const lines = sumOf(file) === report.source ? readFileSync(file, 'utf8').split('\n') : undefined;
      const isExplained = (m) => lines !== undefined && isKnown(rowOf(file, lines, m));
      sum.explained += drawn.filter((m) => isUnnoticed(m) && isExplained(m)).length;
      const done = drawn.every((m) => m.status);
      sum.run += done ? 1 : 0;
      sum.all += report.mutants.length;
      sum.killed += killed;
      sum.survived += survived;
      sum.broken += broken;
      if (!values.rows)
        console.log(
          `  ${percent(killed, survived)} of ${String(killed + survived).padStart(4)}${apart(broken)}  ${file}${done ? '' : ', not all of it'}`,
        );
      if (values.survivors && files.includes(file)) {
        for (const m of report.mutants) {
          if (isUnnoticed(m) && !isExplained(m)) console.log(`      ${m.at} ${m.status}: ${m.before}  ->  ${m.after}`);
        }
      }
      if (values.rows && lines && files.includes(file))
        for (const m of drawn) if (isUnnoticed(m) && !isExplained(m)) console.log(JSON.stringify({ ...rowOf(file, lines, m), why: m.at }));
    }
    console.log(
      `${folder}: ${percent(sum.killed, sum.survived)} of ${sum.killed + sum.survived} changes noticed${likely(sum)}${seen(sum)}${apart(sum.broken)}; ${sum.run} of ${all.length} files whole`,
    );
  }
}
