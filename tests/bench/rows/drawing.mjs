import { readdirSync, readFileSync } from 'node:fs';
import { readCircuit } from '../../../dist/cli/circuit/readCircuit.js';
import { restScene } from '../../../dist/cli/circuit/scenePhrase.js';
import { partKinds } from '../../../dist/cli/parts/index.js';
import { ribbonsOf } from '../../../dist/cli/report/drawn.js';
import { layoutOf } from '../../../dist/cli/report/layout/layoutOf.js';
import { momentOf } from '../../../dist/cli/report/moment.js';
import { network } from '../../../dist/cli/solve/network.js';
import { milliseconds, row } from '../measure.mjs';

/** Layout of every circuit of the library, and one move of the key solved and made ready to draw, of the largest. */
export async function rows() {
  const read = readdirSync('circuits')
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => readCircuit(readFileSync(`circuits/${f}`, 'utf8'), f, partKinds))
    .flatMap((r) => (r.ok ? [r.value] : []))
    .map((circuit) => ({ circuit, layout: layoutOf(circuit) }));
  const largest = read.reduce((a, b) => (b.layout.poles.length > a.layout.poles.length ? b : a));
  const inFileOrder = (circuit) => layoutOf(circuit, { inFileOrder: true }).crossings.length;
  const sum = (list) => list.reduce((a, b) => a + b, 0);
  const net = network(largest.circuit);
  const rest = restScene(largest.circuit);
  let angle = 0;
  const move = () => {
    angle = (angle + 1) % 90;
    const scene = rest.key ? { ...rest, key: { ...rest.key, angle } } : rest;
    ribbonsOf(largest.layout, momentOf(net, net, scene), 'difference');
  };
  const pieces = largest.layout.poles.length;
  return [
    row(
      'layout-time',
      `layout of the largest circuit, ${pieces} pieces`,
      milliseconds(() => layoutOf(largest.circuit)),
      'ms',
      '<= 50',
    ),
    row('move-time', 'one move of the key solved and made ready to draw, same circuit', milliseconds(move), 'ms', '<= 16'),
    row(
      'crossings',
      'crossings in all drawings of the library, against file order',
      sum(read.map((r) => r.layout.crossings.length)) / sum(read.map((r) => inFileOrder(r.circuit))),
      '',
      '<= 1',
    ),
  ];
}
