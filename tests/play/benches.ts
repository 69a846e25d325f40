import type { Circuit } from '../../src/circuit/circuit.ts';
import { circuitFrom } from '../parts/examples.ts';

/** A part with a switch before it and the rest of a circuit behind it; invented. */
export function bench(parts: string, wires: string, supply = '{ kind: supply, voltage: 12 V }', more = ''): Circuit {
  const list = (text: string) =>
    text
      .split('\n')
      .map((l) => l.trim())
      .filter((l) => l !== '')
      .map((l) => (l.includes('->') ? `  - { from: ${l.replace('->', ', to:').replaceAll(' ,', ',')} }` : `  ${l}`))
      .join('\n');
  return circuitFrom(`title: Bench
parts:
  G1: ${supply}
${list(parts)}
wires:
  - { from: G1.-, to: ground }
${list(wires)}
${more}`);
}

/** A vehicle with as little in it as an engine needs: battery, alternator with charge lamp, starter, coil, key switch. */
export function smallVehicle(lamp: string, diode = false, starter = ''): Circuit {
  return bench(
    `G2: { kind: alternator }
     M1: { kind: starter${starter} }
     S1: { kind: key-switch, positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 60° }, START: { at: 90°, springs-to: ON } }, contacts: { 30-15: [45°..100°], 30-50: [80°..100°] } }
     H1: { kind: lamp, power: ${lamp} }
     R1: { kind: diode }
     T1: { kind: coil, resistance: 3.2 Ω }`,
    `G1.+ -> M1.30
     G1.+ -> G2.B+
     G1.+ -> S1.30
     M1.31 -> ground
     G2.31 -> ground
     S1.50 -> M1.50
     S1.15 -> T1.15
     T1.1 -> ground
     S1.15 -> H1.1
     ${diode ? 'H1.2 -> R1.a\nR1.k -> G2.D+' : 'H1.2 -> G2.D+'}`,
    '{ kind: battery, capacity: 45 Ah, cold-cranking: 380 A }',
    'engine: { crank: M1, spark: [T1], fuel: [], drives: [G2] }',
  );
}
