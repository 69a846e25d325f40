/**
 * Measures Detent and prints one row for each promise: `npm run bench`, or `npm run -s bench -- --json`. What is compared is measured in
 * this one run on this one machine, so ratios mean something where seconds do not. `npm run bench -- solver` runs only the rows
 * of tests/bench/rows/solver.mjs. A new set of rows is a file in tests/bench/rows that exports `rows()`; see tests/bench/measure.mjs.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const here = fileURLToPath(new URL('.', import.meta.url));
const asked = process.argv.slice(2);
const json = asked.includes('--json');
const only = asked.filter((word) => !word.startsWith('--'));

if (!existsSync(`${here}node_modules`)) {
  // The solvers to compare with; without them the comparison's rows say that it could not be made.
  spawnSync('npm', ['ci', '--prefix', here, '--silent', '--no-audit', '--no-fund'], {
    stdio: ['ignore', 'ignore', json ? 'ignore' : 'inherit'],
  });
}

const files = readdirSync(`${here}rows`)
  .filter((file) => file.endsWith('.mjs') && (only.length === 0 || only.includes(file.slice(0, -4))))
  .sort();
const rows = [];
for (const file of files) {
  const { rows: measured } = await import(`./rows/${file}`);
  for (const row of await measured()) {
    rows.push(row);
    if (!json) console.log(line(row));
  }
}
if (json) console.log(JSON.stringify({ rows }, null, 2));

function line({ what, value, unit, aim, met }) {
  const verdict = met === null ? '' : met ? 'met   ' : 'MISSED';
  const number = value === null ? 'not measured' : `${short(value)} ${unit}`.trim();
  return `${verdict.padEnd(7)}${number.padStart(16)}  ${(aim ?? '').padEnd(10)} ${what}`;
}

function short(value) {
  return Math.abs(value) >= 100 || value === 0 ? value.toFixed(0) : value.toPrecision(3);
}
