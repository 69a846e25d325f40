import { readFileSync } from 'node:fs';
import type { Circuit } from '../../src/circuit/circuit.ts';
import type { Problem } from '../../src/circuit/problem.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { readScene } from '../../src/circuit/scenePhrase.ts';
import { changesOf, type Fault, worldsOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { engineSeen } from '../../src/solve/engine.ts';
import { loadsAt } from '../../src/solve/loads.ts';
import { network } from '../../src/solve/network.ts';
import { amperesInto, amperesThrough, type OperatingPoint, operatingPoint, type States, voltsAt } from '../../src/solve/operatingPoint.ts';
import { type Cell, positionTable } from '../../src/solve/positionTable.ts';

/** A circuit of the library, read, with short ways to ask what a technician would ask at the vehicle. */
export type Vehicle = {
  readonly circuit: Circuit;
  readonly problems: readonly Problem[];
  /** The vehicle in a scene (`ON, S5 on`), with faults in it. */
  readonly at: (scene: string, ...faults: readonly string[]) => Seen;
  /** The position table with faults in it. */
  readonly table: (...faults: readonly string[]) => Table;
};

export type Table = {
  /** Verdicts of a load at the detents, first to last: `dead dead works works`. */
  readonly row: (load: string) => string;
  readonly cell: (load: string, position: string) => Cell;
  /** Ids of the rows that differ from the healthy circuit at a detent. */
  readonly changed: () => readonly string[];
  /** Guide values that are passed in some cell. */
  readonly warnings: readonly string[];
};

export type Seen = {
  readonly point: OperatingPoint;
  /** Volts of a terminal against the reference, or between two terminals. */
  readonly volts: (terminal: string, minus?: string) => number;
  /** Amperes from the wiring into a terminal of a part (`F3.1`), or through a key contact or other element (`S1.30-15`). */
  readonly amps: (where: string) => number;
  /** What a load does. */
  readonly is: (load: string) => string;
  /** `cranks`, `runs` or `still`. */
  readonly engine: () => string;
  /** The next scene, with relays, excitation and other states as they were here. */
  readonly next: (scene: string) => Seen;
};

export function vehicle(name: string): Vehicle {
  const file = `circuits/${name}.yaml`;
  const read = readCircuit(readFileSync(file, 'utf8'), file, partKinds);
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.line}:${p.column} ${p.what}`).join('\n'));
  const circuit = read.value;
  return {
    circuit,
    problems: read.problems,
    at: (scene, ...faults) => seen(circuit, scene, faults),
    table: (...faults) => table(circuit, faults),
  };
}

function faultsIn(circuit: Circuit, phrases: readonly string[]): readonly Fault[] {
  return phrases.map((text) => {
    const fault = readFault(text, circuit);
    if (!fault.ok) throw new Error(`${text}: ${fault.problems.map((p) => p.what).join('; ')}`);
    return fault.value;
  });
}

function table(circuit: Circuit, faults: readonly string[]): Table {
  const { rows, warnings } = positionTable(circuit, worldsOf(faultsIn(circuit, faults)));
  const rowOf = (load: string) => {
    const row = rows.find((r) => r.id === load);
    if (!row) throw new Error(`${load} has no row`);
    return row.cells.filter((c) => !c.position.includes(' after '));
  };
  return {
    row: (load) =>
      rowOf(load)
        .map((c) => c.verdict)
        .join(' '),
    cell: (load, position) => {
      const cell = rows.find((r) => r.id === load)?.cells.find((c) => c.position === position);
      if (!cell) throw new Error(`${load} has no cell at ${position}`);
      return cell;
    },
    changed: () => rows.filter((r) => r.cells.some((c) => c.changed)).map((r) => r.id),
    warnings: warnings.map((w) => `${w.position}: ${w.what} of ${w.element} carries ${w.value.toFixed(1)} A of ${w.limit.toFixed(1)} A`),
  };
}

function seen(circuit: Circuit, phrase: string, faults: readonly string[], states?: States): Seen {
  const read = readScene(phrase, circuit, 'scene');
  if (!read.ok) throw new Error(`${phrase}: ${read.problems.map((p) => p.what).join('; ')}`);
  const changes = changesOf(faultsIn(circuit, faults));
  const scene = read.value;
  const net = network(circuit, changes, scene);
  const point = operatingPoint(net, scene, states);
  const volt = (terminal: string) => {
    const found = voltsAt(point, terminal);
    if (found === undefined) throw new Error(`no terminal ${terminal}`);
    return found ?? Number.NaN;
  };
  return {
    point,
    volts: (terminal, minus) => volt(terminal) - (minus === undefined ? 0 : volt(minus)),
    amps: (where) => (net.branchOf.has(where) ? amperesThrough(point, where) : amperesInto(point, where)),
    is: (load) => {
      const found = loadsAt(point).find((l) => l.id === load);
      if (!found) throw new Error(`${load} is no load`);
      return found.verdict;
    },
    engine: () => {
      const e = engineSeen(net, scene);
      return e === undefined ? 'no engine' : e.cranks ? 'cranks' : e.alive ? 'runs' : 'still';
    },
    next: (phrase) => seen(circuit, phrase, faults, point.states),
  };
}
