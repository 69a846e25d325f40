import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readCircuit } from '../../../dist/cli/circuit/readCircuit.js';
import { TreeMemory } from '../../../dist/cli/circuit/treeMemory.js';
import { partKinds } from '../../../dist/cli/parts/index.js';
import { milliseconds, row } from '../measure.mjs';

const top = fileURLToPath(new URL('../../../', import.meta.url));

/** One circuit several times over, with ids of its own each time and one key switch less than circuits. */
function manyTimes(text, count) {
  const lines = text.split('\n');
  const [parts, wires, engine] = [lines.indexOf('parts:'), lines.indexOf('wires:'), lines.findIndex((l) => l.startsWith('engine:'))];
  const ids = new Set([...text.matchAll(/^ {2}([A-Z]+\d+):/gm), ...text.matchAll(/id: (W\d+)/g)].map((m) => m[1]));
  const copy = (part, k) =>
    part.map((line) => line.replace(/\b([A-Z]{1,2}\d+)(?=[:.,\]} ]|$)/g, (id) => (ids.has(id) ? `${id}c${k}` : id)));
  const all = (from, to) => Array.from({ length: count }, (_, k) => copy(lines.slice(from, to), k)).flat();
  return ['title: Many', 'parts:', ...all(parts + 1, wires), 'wires:', ...all(wires + 1, engine), ''].join('\n');
}

/** From a key to the problems of a circuit of 2 000 lines, as the editor's worker reads it. */
export function rows() {
  const text = manyTimes(readFileSync(`${top}circuits/light-van.yaml`, 'utf8'), 10);
  const typed = (k) => text.replace('name: Battery,', `name: Battery ${k},`);
  const options = { series: 5, least_ms: 300, warm_ms: 1500 };
  const memory = new TreeMemory();
  const key = milliseconds((k) => readCircuit(typed(k), 'x', partKinds, memory), options);
  const whole = milliseconds((k) => readCircuit(typed(k), 'x', partKinds), options);
  const lines = text.split('\n').length;
  return [
    row('key-to-problems', `a circuit of ${lines} lines after one key, what was read before remembered`, key, 'ms', '<= 50'),
    row('whole-reading', `the same circuit read as a whole`, whole, 'ms'),
    row('key-gain', 'how many times faster', whole / key, '', '>= 2'),
  ];
}
