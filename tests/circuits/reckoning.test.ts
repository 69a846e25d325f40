import { expect, test } from 'vitest';
import { type Vehicle, vehicle } from './vehicle.ts';

/**
 * Currents of the same harnesses reckoned apart from this program, before it was written: a linear model, lamps and
 * motors as fixed ohms at rated volts, wire at 0.0175 Ω·mm²/m, 3 mΩ a pin, 8 mΩ a key contact, rest volts and inner
 * resistance of the battery given. Ours has lamp curves, motors whose current hardly falls with the volts, 5 mΩ
 * contacts, a battery a tenth to a quarter stiffer or softer, and lamps that the reckoning lacked. Each row's
 * tolerance covers that: 5 % where ohms alone decide, 10 % with lamps and motors, 15 % while cranking.
 */
const rows: readonly (readonly [vehicle: string, scene: string, where: string, ampere: number, tolerance: number])[] = [
  ['bench-board', 'ACC', 'S1.30-75', 1.2, 0.1],
  ['bench-board', 'ON', 'G1', 2.09, 0.1],
  ['bench-board', 'ON', 'S1.30-15', 0.9, 0.1],
  ['bench-board', 'START', 'G1', 5.9, 0.1],
  ['bench-board', 'START', 'S1.30-50', 0.3, 0.05],
  ['light-van', 'ACC, S5 on, S6 on', 'S1.30-75', 10.5, 0.1],
  ['light-van', 'ON, S5 on, S6 on, S8 pressed, S9 reverse, S2 at 2, S12 left', 'G1', 37, 0.1],
  ['light-van', 'ON, S5 on, S6 on, S8 pressed, S9 reverse, S2 at 2, S12 left', 'S1.30-15', 15.2, 0.1],
  ['light-van', 'START', 'G1', 196, 0.15],
  ['light-van', 'START', 'S1.30-15', 2.7, 0.15],
  ['light-van', 'START', 'S1.30-50', 9.2, 0.15],
  ['saloon', 'R, S5 at 3, S6 at 1, S8 on', 'G1', 35, 0.1],
  ['saloon', 'R, S5 at 3, S6 at 1, S8 on', 'S1.30-R', 1.7, 0.1],
  ['saloon', 'START', 'G1', 242, 0.15],
  ['saloon', 'START', 'S1.30-50', 9.8, 0.15],
  ['saloon', '0, S12 left', 'S1.30-P', 0.9, 0.15],
  ['motorcycle', 'P', 'S1.30-58', 0.74, 0.1],
  ['motorcycle', 'ON, S7 pressed, S9 left', 'S1.30-15', 11.7, 0.1],
  ['motorcycle', 'ON, S3 on', 'G1', 89, 0.15],
  ['tractor', 'HEAT', 'S1.30-19', 13.1, 0.05],
  ['tractor', 'ON, S8 on, S6 pressed, S10 on, S7 at 2', 'G1', 29, 0.1],
  ['tractor', 'ON, S8 on, S6 pressed, S10 on, S7 at 2', 'S1.30-15', 4, 0.1],
  ['tractor', 'START, S3 pressed', 'G1', 435, 0.15],
  ['tractor', 'START, S3 pressed', 'S1.30-50', 0.18, 0.15],
  ['diesel-estate', 'ON', 'G1', 70, 0.1],
  ['diesel-estate', 'ON, S9 on, S10 at 1, S12 pressed', 'G1', 88, 0.1],
  ['diesel-estate', 'ON, S9 on, S10 at 1, S12 pressed', 'S1.30-75', 16.7, 0.1],
  ['diesel-estate', 'START, S5 pressed', 'G1', 371, 0.15],
  ['diesel-estate', 'START, S5 pressed', 'S1.30-50', 9.9, 0.15],
  ['truck', '0', 'G1', 0.48, 0.05],
  ['truck', 'ON, S7 on, S9 on, S11 pressed, S5 on, S10 at 2', 'G1', 31, 0.1],
  ['truck', 'START', 'G1', 361, 0.15],
  ['truck', 'START', 'S1.30-50', 0.18, 0.15],
  ['classic-six-volt', 'ON', 'S1.30-15', -5.1, 0.1],
  ['classic-six-volt', 'ON, S7 on, S8 pressed, S3 at H', 'G1', 25, 0.1],
  ['classic-six-volt', 'ON, S7 on, S8 pressed, S3 at H', 'S1.30-15', -11.6, 0.1],
  ['classic-six-volt', 'ON, S2 on', 'G1', 192, 0.15],
  ['boat', 'ON, S7 on', 'G1', 2.8, 0.1],
  ['boat', 'ON, S4 up', 'G1', 26, 0.1],
  ['boat', 'START, S8 on', 'G1', 132, 0.15],
  ['boat', 'START, S8 on', 'S1.B-S', 3, 0.1],
  ['boat', 'START, S8 on', 'S1.B-C', 3, 0.1],
  ['boat', 'OFF, S6 on', 'G1', 3.12, 0.1],
  ['modern-saloon', 'ON, S6 on, S7 at 1, S12 hot', 'G1', 62, 0.1],
  ['modern-saloon', 'START, S2 pressed', 'G1', 250, 0.15],
];

const read = new Map<string, Vehicle>([...new Set(rows.map(([name]) => name))].map((name) => [name, vehicle(name)]));

test.each(rows)('%s, %s: %s carries %f A', (name, scene, where, ampere, tolerance) => {
  const found = read.get(name)!.at(scene).amps(where);
  expect(Math.abs(found / ampere - 1), `${found.toFixed(2)} A`).toBeLessThan(tolerance);
});
