import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readCircuit } from '../../../dist/cli/circuit/readCircuit.js';
import { changesOf, faultOf } from '../../../dist/cli/faults/fault.js';
import { faultModes } from '../../../dist/cli/faults/faultModes.js';
import { readFault } from '../../../dist/cli/faults/faultPhrase.js';
import { partKinds } from '../../../dist/cli/parts/index.js';
import { positionTable } from '../../../dist/cli/solve/positionTable.js';
import { median, milliseconds, row } from '../measure.mjs';

const top = fileURLToPath(new URL('../../../', import.meta.url));
const van = `${top}circuits/light-van.yaml`;
const phrase = 'S1.30-15 open at ON';

/** The van's whole position table with one fault in it: warm, and from the shell. */
export function rows() {
  const read = readCircuit(readFileSync(van, 'utf8'), van, partKinds);
  if (!read.ok) throw new Error(read.problems[0].what);
  const circuit = read.value;
  const tableWith = (fault) => positionTable(circuit, [{ share: 1, changes: changesOf([fault]) }]);
  const fault = readFault(phrase, circuit);
  if (!fault.ok) throw new Error(fault.problems[0].what);
  const again = milliseconds(() => tableWith(fault.value));
  // Every sixth of all faults, each once: nothing of it can be known already but the healthy vehicle.
  const fresh = faultModes(circuit).filter((_, k) => k % 6 === 0);
  const times = fresh.map(({ part, mode }) => {
    const begin = performance.now();
    tableWith(faultOf(part, mode));
    return performance.now() - begin;
  });
  const shell = median(
    Array.from({ length: 7 }, () => {
      const begin = performance.now();
      const { status } = spawnSync(process.execPath, [`${top}dist/cli/cli/main.js`, 'table', van, '--fault', phrase], { encoding: 'utf8' });
      if (status !== 0) throw new Error(`detent table ended with ${status}`);
      return (performance.now() - begin) / 1000;
    }),
  );
  return [
    row('table-warm', `whole position table of the van, \`${phrase}\`, asked again`, again, 'ms', '<= 5'),
    row('table-fresh', `the same with a fault never seen before: median of ${fresh.length} faults`, median(times), 'ms', '<= 5'),
    row('table-cold', 'detent table of the van from the shell, cold', shell, 's', '<= 0.5'),
  ];
}
