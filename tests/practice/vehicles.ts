import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { partKinds } from '../../src/parts/index.ts';

const folder = join(import.meta.dirname, '..', '..', 'circuits');
export const circuitNames = readdirSync(folder)
  .filter((f) => f.endsWith('.yaml'))
  .map((f) => f.replace('.yaml', ''));

/** Small enough that an exercise of any kind is made in a moment: a key switch, three fuses, four lamps on two grounds. */
const smallBoard = `
title: Small board, 12 V
parts:
  G1: { kind: battery, capacity: 7 Ah, cold-cranking: 80 A, resistance: 0.03 Ω }
  F1: { kind: fuse, rating: 10 A }
  F2: { kind: fuse, rating: 5 A }
  F3: { kind: fuse, rating: 5 A }
  S1:
    kind: key-switch
    positions:
      OFF: { at: 0°, key-out: yes }
      ACC: { at: 30° }
      ON: { at: 60° }
    contacts:
      30-75: [20..68°]
      30-15: [45..100°]
  E1: { kind: lamp, power: 10 W, name: Blower lamp }
  E2: { kind: lamp, power: 5 W, name: Radio lamp }
  H1: { kind: lamp, power: 2 W, name: Charge lamp }
  H2: { kind: lamp, power: 2 W, name: Oil lamp }
  XE1: { kind: ground-point, on: body }
  J1: { kind: splice }
wires:
  - { id: W1, from: G1.+, to: F1.1, area: 2.5 mm², length: 0.4 m }
  - { id: W2, from: G1.-, to: XE1, area: 2.5 mm², length: 0.4 m }
  - { id: W3, from: F1.2, to: S1.30, area: 1.5 mm², length: 0.3 m }
  - { id: W4, from: S1.75, to: F2.1, area: 1 mm², length: 0.2 m }
  - { id: W5, from: S1.15, to: F3.1, area: 1 mm², length: 0.2 m }
  - { id: W6, from: F2.2, to: E1.1, area: 1 mm², length: 0.3 m }
  - { id: W7, from: F2.2, to: E2.1, area: 1 mm², length: 0.3 m }
  - { id: W8, from: F3.2, to: H1.1, area: 1 mm², length: 0.3 m }
  - { id: W9, from: F3.2, to: H2.1, area: 1 mm², length: 0.3 m }
  - { id: W10, from: E1.2, to: J1, area: 1 mm², length: 0.3 m }
  - { id: W11, from: E2.2, to: J1, area: 1 mm², length: 0.3 m }
  - { id: W12, from: J1, to: XE1, area: 1 mm², length: 0.3 m }
  - { id: W13, from: H1.2, to: XE1, area: 1 mm², length: 0.3 m }
  - { id: W14, from: H2.2, to: XE1, area: 1 mm², length: 0.3 m }
`;

const textOf = (name: string) => (name === 'small-board' ? smallBoard : readFileSync(join(folder, `${name}.yaml`), 'utf8'));

const known = new Map<string, { readonly circuit: Circuit; readonly predictor: Predictor }>();

/** A circuit of the library, or the small board, with a predictor that remembers. */
export function vehicle(name: string): { readonly circuit: Circuit; readonly predictor: Predictor } {
  const before = known.get(name);
  if (before) return before;
  const read = readCircuit(textOf(name), `${name}.yaml`, partKinds);
  if (!read.ok) throw new Error(`${name} cannot be read`);
  const made = { circuit: read.value, predictor: new Predictor(read.value) };
  known.set(name, made);
  return made;
}
