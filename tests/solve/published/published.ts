import { readCircuit } from '../../../src/circuit/readCircuit.ts';
import { partKinds } from '../../../src/parts/index.ts';
import { network } from '../../../src/solve/network.ts';
import { amperesThrough, type OperatingPoint, operatingPoint, voltsAt } from '../../../src/solve/operatingPoint.ts';
import { quiet } from '../exact/madeCircuit.ts';

/** A network with known answers; how its strings are to be read stands above the list. */
export type Published = {
  readonly title: string;
  readonly source: string;
  readonly note?: string;
  readonly resistances: readonly string[];
  readonly sources?: readonly string[];
  readonly currents?: readonly string[];
  readonly expect: readonly { readonly of: string; readonly is: number; readonly within: number }[];
};

/** A circuit file of supplies and resistors between points; each point is a splice, each connection an ideal joint. */
function circuitFile({ title, resistances, sources = [], currents = [] }: Published): string {
  const resistors = resistances.map((text) => text.split(' ') as [string, string, string, string]);
  const supplies = sources.map((text) => text.split(' ') as [string, string, string, string, string]);
  const drives = currents.map((text, k) => [`I${k + 1}`, ...text.split(' ')] as [string, string, string, string]);
  const points = new Set([...resistors, ...supplies, ...drives].flatMap(([, a, b]) => [a, b]));
  return [
    `title: ${JSON.stringify(title)}`,
    'parts:',
    ...[...points].map((p) => `  N${p}: { kind: splice }`),
    ...supplies.map(([id, , , volt, ohm]) => `  ${id}: { kind: supply, voltage: ${volt} V, resistance: ${ohm} Ω }`),
    ...resistors.map(([id, , , ohm]) => `  ${id}: { kind: resistor, resistance: ${ohm} Ω }`),
    ...drives.map(([id, , , ampere]) => `  ${id}: { kind: current-supply, current: ${ampere} A }`),
    'wires:',
    ...[...supplies, ...drives].flatMap(([id, a, b]) => [`  - { from: ${id}.+, to: N${a} }`, `  - { from: ${id}.-, to: N${b} }`]),
    ...resistors.flatMap(([id, a, b]) => [`  - { from: ${id}.1, to: N${a} }`, `  - { from: ${id}.2, to: N${b} }`]),
  ].join('\n');
}

function solved(net: Published): OperatingPoint {
  const read = readCircuit(circuitFile(net), 'published.yaml', partKinds);
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.line}:${p.column} ${p.what}`).join('\n'));
  return operatingPoint(network(read.value), quiet);
}

const volts = (at: OperatingPoint, a: string, b: string) => voltsAt(at, `N${a}.1`)! - voltsAt(at, `N${b}.1`)!;

/** What the program answers to `V a b`, `A name` or `Ω a b`. */
export function answer(net: Published, of: string): number {
  const [what, first, second] = of.split(' ') as [string, string, string];
  if (what === 'V') return volts(solved(net), first, second);
  if (what === 'A') return amperesThroughAny(solved(net), net, first);
  const dead = (net.sources ?? []).map((text) =>
    text
      .split(' ')
      .map((word, k) => (k === 3 ? '0' : word))
      .join(' '),
  );
  return volts(solved({ ...net, sources: dead, currents: [`${first} ${second} 1`] }), first, second);
}

/** An exact supply has no branch of its own: its current is what the resistors at its plus take away. */
function amperesThroughAny(at: OperatingPoint, net: Published, name: string): number {
  const exact = net.sources?.map((text) => text.split(' ')).find(([id, , , , ohm]) => id === name && ohm === '0');
  if (!exact) return amperesThrough(at, name);
  return net.resistances.reduce((sum, text) => {
    const [id, from, to] = text.split(' ');
    const out = from === exact[1] ? 1 : to === exact[1] ? -1 : 0;
    return sum + out * amperesThrough(at, id!);
  }, 0);
}
