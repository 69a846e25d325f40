import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readCircuit } from '../../dist/cli/circuit/readCircuit.js';
import { changesOf } from '../../dist/cli/faults/fault.js';
import { readFault } from '../../dist/cli/faults/faultPhrase.js';
import { partKinds } from '../../dist/cli/parts/index.js';
import { positionTable } from '../../dist/cli/solve/positionTable.js';
import { median, milliseconds, row } from '../measure.mjs';

const top = fileURLToPath(new URL('../../', import.meta.url));
const van = `${top}circuits/light-van.yaml`;
/** One that shows in one position, one that shows in every cell. */
const phrases = ['S1.30-15 open at ON', 'S1.30-15 0.5 Ω'];

/** The van's whole position table with one fault in it: warm, and from the shell. */
export function rows() {
  const read = readCircuit(readFileSync(van, 'utf8'), van, partKinds);
  if (!read.ok) throw new Error(read.problems[0].what);
  const circuit = read.value;
  const tables = phrases.map((phrase) => {
    const fault = readFault(phrase, circuit);
    if (!fault.ok) throw new Error(fault.problems[0].what);
    const changes = changesOf([fault.value]);
    return milliseconds(() => positionTable(circuit, [{ share: 1, changes }]));
  });
  const shell = median(
    Array.from({ length: 7 }, () => {
      const begin = performance.now();
      const { status } = spawnSync(process.execPath, [`${top}dist/cli/cli/main.js`, 'table', van, '--fault', phrases[0]], {
        encoding: 'utf8',
      });
      if (status !== 0) throw new Error(`detent table ended with ${status}`);
      return (performance.now() - begin) / 1000;
    }),
  );
  return [
    row('table-warm', `whole position table of the van, \`${phrases[0]}\``, tables[0], 'ms', '<= 5'),
    row('table-warm-everywhere', `the same, \`${phrases[1]}\`: a fault that changes every cell`, tables[1], 'ms'),
    row('table-cold', 'detent table of the van from the shell, cold', shell, 's', '<= 0.5'),
  ];
}
