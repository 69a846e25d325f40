import { expect, test } from 'vitest';
import { currentFromDrop, fuseDrops, meterStep_V } from '../../src/drain/fuseDrops.ts';
import { changesOf, faultOf } from '../../src/faults/fault.ts';
import { faultModes } from '../../src/faults/faultModes.ts';
import { fuseResistance } from '../../src/parts/shared/fuseResistance.ts';
import { vehicle } from '../circuits/vehicle.ts';

/** Published fuse-drop charts. Tolerance: half a unit of the last printed digit of the current, and of the millivolts. */
const charts = [
  { source: 'chart of a training site, blade 10 A (secondary)', form: 'blade', rating: 10, mV: 1, mA: 130, rtol: 0.04 },
  { source: 'trade journal 2017, mini 15 A (secondary)', form: 'mini', rating: 15, mV: 0.1, mA: 22, rtol: 0.025 },
  { source: 'trade journal 2017, mini 15 A (secondary)', form: 'mini', rating: 15, mV: 1, mA: 218, rtol: 0.005 },
  { source: 'arithmetic from 4.80 mΩ (from memory), blade 15 A', form: 'blade', rating: 15, mV: 0.12, mA: 25, rtol: 0.02 },
] as const;
test.each(charts)('$mV mV over $rating A stands for $mA mA: $source', ({ form, rating, mV, mA, rtol }) => {
  const { amperes } = currentFromDrop(mV / 1000, fuseResistance(rating, form), 0.13);
  expect(Math.abs((1000 * amperes) / mA - 1)).toBeLessThan(rtol);
});

test('a reading of nothing is a range from nothing to half a step', () => {
  const range = currentFromDrop(0, 7.7e-3, 0.13);
  expect(range.from).toBe(0);
  expect(range.to).toBeCloseTo(meterStep_V / 2 / (7.7e-3 * 0.87), 9);
});

test('over every fuse of the van volts are ohms times amperes, healthy and with the door switch stuck', () => {
  const { circuit } = vehicle('light-van');
  const stuck = faultModes(circuit).find(({ mode }) => mode.subject === 'S14' && mode.words === 'stuck closed')!;
  const rows = fuseDrops(circuit, changesOf([faultOf(stuck.part, stuck.mode)]));
  expect(rows.map((r) => r.fuse)).toEqual(['F1', 'F2', 'F3', 'F4', 'F5', 'F6', 'F7', 'F8', 'F9', 'F10', 'F11', 'F12']);
  for (const r of rows) expect(r.supposed_V).toBeCloseTo(r.supposed_A * r.ohm, 12);
  const first = rows[0]!;
  expect(first.supposed_A).toBeGreaterThan(first.healthy_A + 0.35);
  // The lamp's return lifts its ground point by a little, which drives microamperes back through cold lamps: far below what a meter shows.
  for (const r of rows.slice(1)) expect(Math.abs(r.supposed_V - r.healthy_V), r.fuse).toBeLessThan(meterStep_V / 20);
});
