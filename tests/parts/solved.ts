import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import type { EngineState, KeyPlace } from '../../src/circuit/scene.ts';
import { changesOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { loadsAt } from '../../src/solve/loads.ts';
import { network } from '../../src/solve/network.ts';
import { amperesThrough, type OperatingPoint, operatingPoint, type States, voltsAt } from '../../src/solve/operatingPoint.ts';

/** A small circuit of a test, read from `parts` and `wires` as a person would write them. */
export function circuitOf(parts: string, wires: readonly string[]): Circuit {
  const rows = wires.map((w) => w.split(' ')).map(([from, to]) => `  - { from: ${from}, to: ${to} }`);
  const text = `title: test\nparts:\n${parts
    .trim()
    .split('\n')
    .map((line) => `  ${line}`)
    .join('\n')}\nwires:\n${rows.join('\n')}\n`;
  const read = readCircuit(text, 'test.yaml', partKinds);
  if (!read.ok) throw new Error(`${text}\n${read.problems.map((p) => `${p.line}:${p.column} ${p.what}`).join('\n')}`);
  return read.value;
}

export type Asked = {
  readonly key?: KeyPlace;
  readonly hand?: Readonly<Record<string, string>>;
  readonly engine?: EngineState;
  readonly faults?: readonly string[];
  readonly states?: States;
  /** False holds the states as they are given. */
  readonly settles?: boolean;
};

export type Solved = {
  readonly point: OperatingPoint;
  /** Volts between two terminals, ground without a second. */
  readonly volts: (plus: string, minus?: string) => number;
  readonly amps: (element: string) => number;
  readonly verdict: (load: string) => string;
};

export function solved(circuit: Circuit, { key, hand = {}, engine = 'stopped', faults = [], states, settles = true }: Asked = {}): Solved {
  const read = faults.map((phrase) => {
    const fault = readFault(phrase, circuit);
    if (!fault.ok) throw new Error(fault.problems.map((p) => p.what).join('\n'));
    return fault.value;
  });
  const point = operatingPoint(
    network(circuit, changesOf(read)),
    { ...(key && { key }), hand, engine, apart: [], bridged: [], swapped: [] },
    states,
    settles,
  );
  const at = (terminal: string) => {
    const volts = voltsAt(point, terminal);
    if (typeof volts !== 'number') throw new Error(`${terminal}: ${volts === null ? 'floats' : 'no such terminal'}`);
    return volts;
  };
  return {
    point,
    volts: (plus, minus) => at(plus) - (minus === undefined ? 0 : at(minus)),
    amps: (element) => amperesThrough(point, element),
    verdict: (load) => loadsAt(point).find((l) => l.id === load)?.verdict ?? 'no such load',
  };
}
