import { describe, expect, test } from 'vitest';
import { keyOff } from '../../src/drain/keyOff.ts';
import { waitMinutes } from '../../src/drain/procedure.ts';
import { staircase } from '../../src/drain/staircase.ts';
import { faultOf } from '../../src/faults/fault.ts';
import { faultModes } from '../../src/faults/faultModes.ts';
import { stairRow } from '../../src/report/drainView.ts';
import { vehicle } from '../circuits/vehicle.ts';

const named = (name: string, phrase: string) => {
  const { circuit } = vehicle(name);
  const found = faultModes(circuit).find(({ mode }) => `${mode.subject} ${mode.words}` === phrase)!;
  return { circuit, fault: faultOf(found.part, found.mode) };
};

describe('the saloon whose modules fall asleep', () => {
  const { circuit } = vehicle('modern-saloon');
  const stairs = staircase(circuit)!;

  test('the current only goes down, and its last level is what the vehicle at rest draws', () => {
    const levels = stairs.treads.map((t) => t.amperes);
    expect(levels.length).toBeGreaterThanOrEqual(4);
    for (const [k, a] of levels.slice(1).entries()) expect(a).toBeLessThan(levels[k]!);
    // Ten seconds of running position have taken next to no charge.
    expect(Math.abs(levels.at(-1)! / keyOff(circuit).amperes - 1)).toBeLessThan(0.01);
  });

  test('the body module is awake for a minute and asleep after ten, as its file says', () => {
    const rows = stairs.treads.map(stairRow);
    expect(stairs.treads.find((t) => t.events.some((e) => e.part === 'A2' && e.what.includes('after-run')))!.from_s).toBeCloseTo(60, 0);
    expect(stairs.asleepAfter_s).toBeCloseTo(600, 0);
    expect(rows.at(-1)!.asleep).toBe('A2 asleep');
  });

  test('wait as long as it takes, with a margin', () => {
    expect(waitMinutes(stairs)).toBe(13);
    expect(waitMinutes(undefined)).toBe(5);
  });

  test('a module that stays awake ends on a higher step', () => {
    const { fault } = named('modern-saloon', 'A2 stays awake');
    const kept = staircase(circuit, [fault])!;
    expect(kept.treads.at(-1)!.amperes).toBeGreaterThan(0.4);
    expect(kept.treads.at(-1)!.amperes).toBeCloseTo(
      keyOff(
        circuit,
        fault.mode.changes(0).map((change) => ({ part: 'A2', change })),
      ).amperes,
      2,
    );
  });
});

test.each(['light-van', 'tractor', 'classic-six-volt', 'boat', 'motorcycle'] as const)(
  '%s has nothing that goes to sleep: at rest within seconds',
  (name) => {
    const { circuit } = vehicle(name);
    const stairs = staircase(circuit)!;
    expect(stairs.asleepAfter_s).toBeLessThan(30);
    expect(stairs.treads.at(-1)!.amperes).toBeCloseTo(keyOff(circuit).amperes, 3);
  },
);
