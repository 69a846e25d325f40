/**
 * Solves random circuits of all kinds, absurd ones too, and holds them to the laws: `npm run stress`, `npm run stress -- --circuits 500
 * --seed 7 --from 300`. Each settles or is said to chatter; Kirchhoff, energy balance, every piece's own law, passivity; the same voltages as a
 * general-purpose solver finds for the exported network. `--only 123` solves one circuit and prints what was found.
 */
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'vite';

const { values } = parseArgs({
  options: {
    circuits: { type: 'string', default: '10000' },
    from: { type: 'string', default: '0' },
    seed: { type: 'string', default: '20261125' },
    only: { type: 'string' },
  },
});
const top = fileURLToPath(new URL('../../', import.meta.url));
process.chdir(top);
const outDir = 'node_modules/.cache/detent-stress';
await build({
  configFile: false,
  logLevel: 'error',
  build: { ssr: true, outDir, emptyOutDir: true, minify: false, rollupOptions: { input: 'tests/stress/checked.ts' } },
});
const { checked } = await import(`${top}${outDir}/checked.js`);
const seed = Number(values.seed);
if (values.only !== undefined) {
  const found = checked(seed, Number(values.only));
  console.log(found);
  process.exit(found.wrong.length === 0 ? 0 : 1);
}

const patience_ms = 2000;
const [from, to] = [Number(values.from), Number(values.from) + Number(values.circuits)];
const said = {};
const sorts = {};
let [wrong, compared, apart, residual, slowest] = [0, 0, 0, 0, 0];
for (let number = from; number < to; number++) {
  const began = performance.now();
  let found;
  try {
    found = checked(seed, number);
  } catch (e) {
    found = { sort: 'threw', said: 'threw', wrong: [e.stack.split('\n').slice(0, 5).join('\n')], residual: 0 };
  }
  const took = performance.now() - began;
  slowest = Math.max(slowest, took);
  said[found.said] = (said[found.said] ?? 0) + 1;
  sorts[found.sort] = (sorts[found.sort] ?? 0) + 1;
  if (found.residual !== 1) residual = Math.max(residual, found.residual);
  if (found.apart !== undefined) {
    compared++;
    apart = Math.max(apart, found.apart);
  }
  const faults = took > patience_ms ? [...found.wrong, `took ${took.toFixed(0)} ms`] : found.wrong;
  if (faults.length === 0) continue;
  wrong++;
  console.log(`${number} (${found.sort}): ${faults.join('; ')}`);
}
console.log(`${to - from} circuits of seed ${seed}, ${wrong} wrong; worst residual ${residual.toExponential(1)}`);
console.log(
  `${compared} of them solved by the general-purpose solver too, at most ${apart.toExponential(1)} apart; slowest ${slowest.toFixed(0)} ms`,
);
console.log(
  Object.entries(said)
    .map(([word, n]) => `  ${String(n).padStart(6)}  ${word}`)
    .join('\n'),
);
console.log(
  Object.entries(sorts)
    .map(([sort, n]) => `  ${String(n).padStart(6)}  ${sort}`)
    .join('\n'),
);
process.exitCode = wrong > 0 ? 1 : 0;
