/**
 * Tries damaged inputs of every sort: `npm run fuzz`, `npm run fuzz -- --inputs 20000 --seed 7 --threads 2`. Goes on where the last run
 * of the same seed stopped; `--fresh` begins again, `--only 123` tries one input and prints it. Whatever is wrong is written to
 * artifacts/fuzz/ with its input and ends the run with exit 1: thrown at, refused without a word, over 2 s, over 512 MB.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { build } from 'vite';

const { values } = parseArgs({
  options: {
    inputs: { type: 'string', default: '1000000' },
    seed: { type: 'string', default: '20261125' },
    threads: { type: 'string', default: '2' },
    only: { type: 'string' },
    fresh: { type: 'boolean', default: false },
  },
});
const seed = Number(values.seed);
const inputs = Number(values.inputs);
const limit_MB = 512;
/** A machine under load may be late with a beat; only a worker that is silent for as long as this hangs. */
const silence_ms = 60_000;
/** A worker that is still being loaded has no input yet to hang at. */
const loading_ms = 900_000;
const block = 10_000;

const top = fileURLToPath(new URL('../../', import.meta.url));
process.chdir(top);
// A single input may be looked at while a run goes on.
const outDir = `node_modules/.cache/detent-fuzz${values.only === undefined ? '' : '-only'}`;
await build({
  configFile: false,
  logLevel: 'error',
  build: {
    ssr: true,
    outDir,
    emptyOutDir: true,
    minify: false,
    rollupOptions: { input: ['tests/fuzz/worker.ts', 'tests/fuzz/oneInput.ts'] },
  },
});

if (values.only !== undefined) {
  const { oneInput } = await import(`${top}${outDir}/oneInput.js`);
  const tried = oneInput(seed, Number(values.only), () => performance.now());
  console.log(tried);
  process.exit(tried.wrong === undefined ? 0 : 1);
}

mkdirSync('artifacts/fuzz', { recursive: true });
const book = `artifacts/fuzz/seed-${seed}.json`;
const kept = values.fresh ? undefined : known(book);
const tally = kept ?? { seed, next: 0, count: {}, most_MB: 0, wrong: [] };
let next = tally.next;
const underWay = new Set();
const began = Date.now();
const first = next;
await Promise.all(Array.from({ length: Number(values.threads) }, () => lane()));
keep(next);
const rate = (next - first) / Math.max(1, (Date.now() - began) / 1000);
console.log(
  `\n${tally.next} inputs of seed ${seed} (${rate.toFixed(0)} a second), ${tally.wrong.length} wrong, heap at most ${tally.most_MB.toFixed(0)} MB`,
);
console.log(
  Object.entries(tally.count)
    .map(([name, n]) => `  ${String(n).padStart(8)}  ${name}`)
    .join('\n'),
);
for (const { number, target, wrong } of tally.wrong) console.log(`  ${target} ${number}: ${wrong}`);
process.exitCode = tally.wrong.length > 0 ? 1 : 0;

async function lane() {
  while (next < inputs) {
    const from = next;
    next = Math.min(inputs, next + block);
    underWay.add(from);
    await blockOf(from, next);
    underWay.delete(from);
    keep(Math.min(next, ...underWay));
    if (process.stdout.isTTY) process.stdout.write(`\r${tally.next} of ${inputs}, ${tally.wrong.length} wrong `);
  }
}

/** One worker for a block; what kills it is put down to the input that it was at, and the rest goes on behind it. */
async function blockOf(from, to) {
  for (let at = from; at < to; ) at = await attempt(at, to);
}

function attempt(from, to) {
  return new Promise((done) => {
    const worker = new Worker(`${top}${outDir}/worker.js`, {
      workerData: { seed, from, to },
      resourceLimits: { maxOldGenerationSizeMb: limit_MB },
    });
    let at = from;
    let last = { count: {}, most_MB: 0 };
    let timer;
    const wake = (limit_ms) => {
      clearTimeout(timer);
      timer = setTimeout(() => end(`hung for ${limit_ms / 1000} s within some inputs from here`), limit_ms);
    };
    const end = (wrong) => {
      clearTimeout(timer);
      worker.removeAllListeners();
      worker.on('error', () => undefined);
      void worker.terminate();
      for (const [name, n] of Object.entries(last.count)) tally.count[name] = (tally.count[name] ?? 0) + n;
      tally.most_MB = Math.max(tally.most_MB, last.most_MB);
      if (wrong === undefined) return done(to);
      note({ number: at, target: 'any', wrong, text: '' });
      done(at + 1);
    };
    worker.on('message', (said) => {
      wake(silence_ms);
      if (said.wrong !== undefined) return note(said);
      at = said.at;
      last = said;
      if (said.done) end();
    });
    worker.on('error', (e) => end(e.code === 'ERR_WORKER_OUT_OF_MEMORY' ? `took more than ${limit_MB} MB` : String(e.stack)));
    wake(loading_ms);
  });
}

function note(said) {
  tally.wrong.push({ number: said.number, target: said.target, wrong: said.wrong });
  writeFileSync(`artifacts/fuzz/${said.number}-${said.target.replaceAll(' ', '-')}.txt`, said.text);
  console.log(`${said.target} ${said.number}: ${said.wrong}`);
}

function keep(upTo) {
  tally.next = upTo;
  writeFileSync(book, JSON.stringify(tally, null, 1));
}

function known(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return undefined;
  }
}
