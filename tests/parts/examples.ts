import type { Circuit } from '../../src/circuit/circuit.ts';
import type { Parameter } from '../../src/circuit/parameter.ts';
import type { Part, PartKind } from '../../src/circuit/part.ts';
import { quantityText } from '../../src/circuit/quantity.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';

/** How a required parameter is written when any good value will do. */
function written(parameter: Parameter): string {
  switch (parameter.as) {
    case 'quantity':
      return quantityText(Math.min(parameter.max ?? 12, Math.max(parameter.min ?? 12, 12)), parameter.dimension);
    case 'count':
      return '3';
    case 'word':
      return parameter.words[0]!;
    case 'flag':
      return 'yes';
    case 'text':
      return 'x';
    case 'form':
      return parameter.written;
  }
}

/** Parameters that make a kind show all that it has, besides what it requires. */
const richer: Readonly<Record<string, string>> = {
  'key-switch':
    'positions: { LOCK: { at: 0°, key-out: yes }, ACC: { at: 30° }, ON: { at: 60° }, START: { at: 90°, springs-to: ON, repeat-lock: yes } }, contacts: { 30-75: [22°..74°], 30-15: [48°..95°], 30-50: [80°..95°] }, key-in: { pair: K-31 }, ratings: { all: 20 A }',
  starter: 'bypass: yes',
  relay: 'form: changeover, suppression: diode',
  flasher: 'form: electronic',
};

/** One part of a kind, read from a circuit file. */
export function examplePart(kind: PartKind): Part {
  const required = Object.entries(kind.parameters)
    .filter(([, p]) => 'required' in p && p.required)
    .map(([name, p]) => `${name}: ${written(p)}`);
  const text = richer[kind.kind] ?? required.join(', ');
  return exampleOf(kind, text);
}

/** One part of a kind with these parameters, `area: 1 mm², length: 2 m`. */
export function exampleOf(kind: PartKind, text: string): Part {
  const parameters = text === '' ? '' : `, ${text}`;
  const file = kind.isWire
    ? `title: t\nparts:\n  J1: { kind: splice }\n  J2: { kind: splice }\nwires:\n  - { id: Z9, from: J1, to: J2${parameters} }\n`
    : `title: t\nparts:\n  Z9: { kind: ${kind.kind}${parameters} }\n`;
  return circuitFrom(file).parts.get('Z9')!;
}

export function circuitFrom(text: string): Circuit {
  const read = readCircuit(text, 'test.yaml', partKinds);
  if (!read.ok) throw new Error(`${text}\n${read.problems.map((p) => `${p.line}:${p.column} ${p.what}`).join('\n')}`);
  return read.value;
}
