import { readdirSync, readFileSync } from 'node:fs';
import { expect } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import type { Problem, Read } from '../../src/circuit/problem.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';

/** Read, or the test fails with the problems in words. */
export function sound<T>(read: Read<T>): T {
  if (!read.ok) expect.fail(read.problems.map(inWords).join('\n'));
  return read.value;
}

/** A problem as one line for tables of expectations: `9: what | mend; mend`. */
export function inWords(p: Problem): string {
  return `${p.column}: ${p.what} | ${p.mend.join('; ')}`;
}

/** An invented bench for phrases: one of every thing that a phrase can be about. */
export const bench: Circuit = sound(
  readCircuit(
    `title: Bench for phrases
parts:
  G1: { kind: supply, voltage: 12.6 V, resistance: 0.01 Ω, name: Battery }
  S1:
    kind: key-switch
    name: Key switch
    positions: { LOCK: { at: 0°, key-out: yes }, ACC: { at: 30° }, ON: { at: 60° }, START: { at: 90°, springs-to: ON } }
    contacts: { 30-75: [22°..70°], 30-15: [48°..95°], 30-50: [80°..95°] }
  F3: { kind: fuse, rating: 8 A }
  K1: { kind: relay, name: Lamp relay }
  S4: { kind: switch, name: Lamp button }
  H4: { kind: lamp, power: 21 W, name: Work lamp }
  S3: { kind: multi-switch, states: { "0": [], "1": [30-a], "2": [30-b] }, name: Wiper switch }
  R3: { kind: resistor, resistance: 1 Ω }
  M3: { kind: motor, draws: 3.5 A, name: Wiper }
  E8: { kind: lamp, power: 5 W, name: Interior lamp }
  S14: { kind: door-switch, name: Left door switch }
  S15: { kind: door-switch, name: Right door switch }
  S8: { kind: brake-switch }
  E1: { kind: lamp, power: 21 W, name: Brake lamp }
  S9: { kind: neutral-switch }
  E2: { kind: lamp, power: 2 W, name: Neutral lamp }
  T1: { kind: coil, resistance: 3 Ω, name: Ignition coil }
  R1: { kind: ballast, resistance: 1.5 Ω, name: Ballast }
  X2: { kind: connector, pins: 2, name: Plug of the key switch }
  J1: { kind: splice }
  XE2: { kind: ground-point, on: body, name: Rear ground }
wires:
  - { id: W1, from: G1.+, to: J1, area: 4 mm², length: 1 m }
  - { id: W2, from: G1.-, to: ground }
  - { id: W3, from: J1, to: S1.30, area: 4 mm², length: 1 m, via: [X2.1] }
  - { id: W4, from: J1, to: F3.1, area: 1 mm², length: 1 m }
  - { id: W5, from: S1.15, to: R1.1, area: 1 mm², length: 1 m, via: [X2.2] }
  - { id: W6, from: R1.2, to: T1.15, area: 1 mm², length: 1 m }
  - { from: T1.1, to: ground }
  - { id: W7, from: S1.75, to: S3.30, area: 1 mm², length: 1 m }
  - { id: W8, from: S3.a, to: R3.1 }
  - { id: W9, from: R3.2, to: M3.1, area: 1 mm², length: 1 m }
  - { from: S3.b, to: M3.1 }
  - { from: M3.2, to: XE2 }
  - { id: W10, from: F3.2, to: K1.30, area: 1 mm², length: 1 m }
  - { from: K1.87, to: H4.1 }
  - { from: H4.2, to: XE2 }
  - { from: S1.15, to: S4.1 }
  - { from: S4.2, to: K1.86 }
  - { from: K1.85, to: XE2 }
  - { id: W11, from: F3.2, to: E8.1, area: 1 mm², length: 1 m }
  - { from: E8.2, to: S14.1 }
  - { from: E8.2, to: S15.1 }
  - { from: S14.2, to: ground }
  - { from: S15.2, to: ground }
  - { from: S1.15, to: S8.1 }
  - { from: S8.2, to: E1.1 }
  - { from: E1.2, to: XE2 }
  - { from: S1.15, to: S9.1 }
  - { from: S9.2, to: E2.1 }
  - { from: E2.2, to: XE2 }
`,
    'bench.yaml',
    partKinds,
  ),
);

/** A circuit without a key switch. */
export const keyless: Circuit = sound(
  readCircuit(
    `title: Lamp on a switch
parts:
  G1: { kind: supply, voltage: 12 V }
  S1: { kind: switch }
  H1: { kind: lamp, power: 5 W }
wires:
  - { from: G1.+, to: S1.1 }
  - { from: S1.2, to: H1.1 }
  - { from: H1.2, to: G1.- }
`,
    'keyless.yaml',
    partKinds,
  ),
);

/** Every circuit of the library, by name. */
export const libraryNames: readonly string[] = readdirSync('circuits')
  .filter((file) => file.endsWith('.yaml'))
  .map((file) => file.slice(0, -'.yaml'.length));

/** A circuit of the library. */
export function library(name: string): Circuit {
  const path = `circuits/${name}.yaml`;
  return sound(readCircuit(readFileSync(path, 'utf8'), path, partKinds));
}
