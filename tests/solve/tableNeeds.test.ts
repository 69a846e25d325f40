import { expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { tableNeeds } from '../../src/solve/tableNeeds.ts';
import { keyless, sound } from '../circuit/phraseCircuit.ts';

const read = (parts: string, wires: string): Circuit =>
  sound(
    readCircuit(
      `title: Needs
parts:
  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }
  S1:
    kind: key-switch
    positions: { LOCK: { at: 0°, key-out: yes }, ACC: { at: 30° }, ON: { at: 60° } }
    contacts: { 30-75: [22°..70°], 30-15: [48°..70°] }
${parts}
wires:
  - { from: G1.+, to: S1.30 }
  - { from: G1.-, to: ground }
${wires}`,
      'needs.yaml',
      partKinds,
    ),
  );
const needs = (circuit: Circuit) => Object.fromEntries(tableNeeds(circuit));
const lamp = (id: string, from: string) => `  - { from: ${from}, to: ${id}.1 }\n  - { from: ${id}.2, to: ground }\n`;

test('nothing for what the key alone feeds, one switch for what hangs behind one, two for what hangs behind two', () => {
  const circuit = read(
    `  H1: { kind: lamp, power: 5 W }
  H2: { kind: lamp, power: 5 W }
  H3: { kind: lamp, power: 5 W }
  S2: { kind: switch }
  S3: { kind: multi-switch, states: { dip: [56-56b], main: [56-56a] } }
  S4: { kind: switch }`,
    `${lamp('H1', 'S1.15')}  - { from: S1.15, to: S2.1 }\n${lamp('H2', 'S2.2')}  - { from: S1.75, to: S4.1 }
  - { from: S4.2, to: S3.56 }\n${lamp('H3', 'S3.56a')}`,
  );
  expect(needs(circuit)).toEqual({ H1: {}, H2: { S2: 'on' }, H3: { S3: 'main', S4: 'on' } });
});

test('of two switches the one that lets it work in more positions, and the first of equals', () => {
  const either = (first: string, second: string) =>
    read(
      `  H1: { kind: lamp, power: 5 W }\n  S2: { kind: switch }\n  S3: { kind: switch }`,
      `  - { from: ${first}, to: S2.1 }\n  - { from: ${second}, to: S3.1 }\n  - { from: S3.2, to: S2.2 }\n${lamp('H1', 'S2.2')}`,
    );
  expect(needs(either('S1.15', 'S1.75'))).toEqual({ H1: { S3: 'on' } });
  expect(needs(either('S1.75', 'S1.15'))).toEqual({ H1: { S2: 'on' } });
  expect(needs(either('S1.15', 'S1.15'))).toEqual({ H1: { S2: 'on' } });
});

test('what is weak with nothing switched on does not count as working: a switch that bridges the resistor is asked for', () => {
  const dimmed = read(
    `  H1: { kind: lamp, power: 21 W }\n  R1: { kind: resistor, resistance: 4 Ω }\n  S2: { kind: switch }`,
    `  - { from: S1.15, to: R1.1 }\n  - { from: S1.15, to: S2.1 }\n  - { from: S2.2, to: R1.2 }\n${lamp('H1', 'R1.2')}`,
  );
  expect(needs(dimmed)).toEqual({ H1: { S2: 'on' } });
});

test('what the file says goes before all trying, even where it lets nothing work', () => {
  const written = read(
    `  H1: { kind: lamp, power: 5 W, with: [S3 on] }\n  S2: { kind: switch }\n  S3: { kind: switch }`,
    `  - { from: S1.15, to: S2.1 }\n  - { from: S1.15, to: S3.1 }\n${lamp('H1', 'S2.2')}`,
  );
  expect(needs(written)).toEqual({ H1: { S3: 'on' } });
});

test('what nothing feeds needs nothing; a circuit without a key is asked as it stands', () => {
  expect(needs(read('  H1: { kind: lamp, power: 5 W }\n  S2: { kind: switch }', lamp('H1', 'S2.2')))).toEqual({ H1: {} });
  expect(needs(keyless)).toEqual({ H1: { S1: 'on' } });
});

test('a pair is found though other switches hang beside it', () => {
  const chain = (many: number) =>
    read(
      `  H1: { kind: lamp, power: 5 W }\n${Array.from({ length: many }, (_, k) => `  S${k + 2}: { kind: switch }\n  H${k + 2}: { kind: lamp, power: 2 W }\n`).join('')}  S20: { kind: switch }`,
      `  - { from: S1.15, to: S20.1 }\n  - { from: S20.2, to: S2.1 }\n${lamp('H1', 'S2.2')}${Array.from(
        { length: many - 1 },
        (_, k) => `  - { from: S20.2, to: S${k + 3}.1 }\n${lamp(`H${k + 3}`, `S${k + 3}.2`)}`,
      ).join('')}`,
    );
  expect(needs(chain(3))).toMatchObject({ H1: { S20: 'on', S2: 'on' }, H3: { S20: 'on', S3: 'on' } });
  // More of them than are tried: the nearest to the load are tried, wherever they stand in the file.
  expect(needs(chain(9))).toMatchObject({ H1: { S20: 'on', S2: 'on' }, H10: { S20: 'on', S10: 'on' } });
});

test('a wire may be written from the load to its switch: which end comes first makes nothing nearer or further', () => {
  const chain = (turned: boolean) => {
    const wire = (a: string, b: string) => `  - { from: ${turned ? b : a}, to: ${turned ? a : b} }\n`;
    return read(
      `  H1: { kind: lamp, power: 5 W }\n  R1: { kind: resistor, resistance: 0.1 Ω }\n  S2: { kind: switch }\n  S3: { kind: switch }`,
      `${wire('S1.15', 'S2.1')}${wire('S2.2', 'R1.1')}${wire('R1.2', 'S3.1')}${wire('S3.2', 'H1.1')}${wire('H1.2', 'ground')}`,
    );
  };
  expect([needs(chain(false)), needs(chain(true))]).toEqual([{ H1: { S2: 'on', S3: 'on' } }, { H1: { S2: 'on', S3: 'on' } }]);
});
