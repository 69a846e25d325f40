import { expect, test, vi } from 'vitest';
import { testability } from '../../src/diagnose/testable.ts';
import { vehicle } from './vehicle.ts';

vi.setConfig({ testTimeout: 900_000 });

/** A fault of each circuit that its readings isolate, and two that nothing parts, with the reason. */
type Row = { readonly alone: string; readonly together: readonly [string, string, reason: string] };
const daily: Readonly<Record<string, Row>> = {
  'bench-board': { alone: 'S1.30-15 open at ON', together: ['K1 contact open', 'K1.coil open', 'one-part'] },
  motorcycle: { alone: 'S6 open', together: ['F1 blown', 'W7a short to ground', 'blown'] },
  'classic-six-volt': { alone: 'XE3 0.5 Ω', together: ['W13 short to feed', 'W14 short to feed', 'one-run'] },
  boat: { alone: 'S3 open', together: ['S2 stuck closed', 'S1.M1-M2 stuck closed', 'one-run'] },
  tractor: { alone: 'W3 0.5 Ω', together: ['S5 stuck closed', 'W23a short to ground', 'one-run'] },
};
/** Those that take a minute or so each: `npm run apart`. */
const large: Readonly<Record<string, Row>> = {
  truck: { alone: 'S3 open', together: ['F5 blown', 'W45 short to ground', 'blown'] },
  'light-van': { alone: 'R1 open', together: ['W70 short to feed', 'W71 short to feed', 'one-run'] },
  'diesel-estate': { alone: 'S5 open', together: ['F5 blown', 'W56 short to ground', 'blown'] },
  saloon: { alone: 'XE4 0.5 Ω', together: ['W10a short to feed', 'W10b short to feed', 'one-run'] },
  'modern-saloon': { alone: 'B1 open', together: ['S5 stuck closed', 'W94a short to ground', 'one-run'] },
};

const rows = Object.entries(process.env['APART'] === undefined ? daily : { ...daily, ...large });
test.each(rows)(
  '%s: every steady single fault is isolated by what can be read within reach, or listed with the reason why not',
  (name, row) => {
    const { circuit } = vehicle(name);
    const { faults, byMeter, byEye, together } = testability(circuit);
    const listed = together.flatMap((t) => t.faults);
    expect(new Set(listed).size).toBe(listed.length);
    expect(byMeter.alone + listed.length).toBe(faults);
    expect(byMeter.alone).toBeGreaterThan(2 * byEye.alone);
    // About half stand alone; most of the others are leaks that no instrument shows, or one short on one run.
    expect(byMeter.alone / faults).toBeGreaterThan(0.4);
    expect(listed).not.toContain(row.alone);
    const [one, other, reason] = row.together;
    expect(together.find((t) => t.faults.includes(one))).toMatchObject({ reason, faults: expect.arrayContaining([one, other]) });
    for (const t of together) if (t.reason !== 'no-change' && t.reason !== 'too-small') expect(t.faults.length).toBeGreaterThan(1);
  },
);
