import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test, vi } from 'vitest';
import { belief } from '../../src/diagnose/diagnose.ts';
import { readJob } from '../../src/diagnose/jobFile.ts';
import { jobFindings } from '../../src/diagnose/jobFindings.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import type { Suspect } from '../../src/diagnose/suspects.ts';
import { vehicle } from './vehicle.ts';

vi.setConfig({ testTimeout: 240_000 });

/** What is wrong with the vehicle of each job, invented together with its complaint. */
const causes: Readonly<Record<string, readonly [string, string, string]>> = {
  'bench-board': ['F3 blown', 'W3 0.5 Ω', 'S4 stuck closed'],
  boat: ['X1.3 open', 'S3 open', 'X1.4 0.5 Ω'],
  'classic-six-volt': ['S1.30-15 0.5 Ω', 'S10 stuck closed', 'XE3 0.5 Ω'],
  'diesel-estate': ['S1.30-15 open at ON', 'K1 contact stuck closed', 'S5 open'],
  'light-van': ['S1.30-15 open at ON', 'R1 open', 'S14 stuck closed'],
  'modern-saloon': ['X2.3 open', 'B1 open', 'A2 stays awake'],
  motorcycle: ['X1.2 open', 'S6 open', 'S2 open'],
  saloon: ['K2 contact stuck closed', 'K1.coil open', 'XE4 0.5 Ω'],
  tractor: ['S3 open', 'W3 0.5 Ω', 'G2 diode leaks 400 mA'],
  truck: ['F5 blown', 'S3 open', 'K8.coil open'],
};

const phraseOf = (s: Suspect) => s.faults.map((f) => f.phrase).join(' + ');
/** What fits every finding just as well as the leader. */
const leaders = (suspects: readonly Suspect[]) => {
  const fit = (s: Suspect) => s.grades[0]!.weighed.fits.map((x) => x.toFixed(3)).join(' ');
  return suspects.filter((s) => fit(s) === fit(suspects[0]!)).map(phraseOf);
};

test('three jobs for every circuit, and no other file', () => {
  const names = Object.keys(causes).flatMap((name) => [1, 2, 3].map((k) => `${name}-${k}.yaml`));
  expect(readdirSync('circuits/jobs').sort()).toEqual(names.sort());
});

describe.each(Object.entries(causes))('%s', (name, faults) => {
  const { circuit } = vehicle(name);
  // One predictor for all three: nothing is solved twice.
  const predictor = new Predictor(circuit);
  test.each(faults.map((fault, k) => [`${name}-${k + 1}`, fault] as const))('%s: what was found leads to %s', (job, cause) => {
    const file = `circuits/jobs/${job}.yaml`;
    const text = readFileSync(file, 'utf8');
    expect(text.split('\n')[0]).toBe(`# Cause: ${cause}. Invented vehicle, owner and readings.`);
    const read = readJob(text, file);
    if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('; '));
    expect(read.value.circuit).toEqual({ path: `../${name}.yaml` });
    expect(read.value.vehicle).not.toBe('');
    expect(read.value.complaint).not.toBe('');
    const told = jobFindings(read.value, circuit, file);
    expect(told.problems).toEqual([]);
    // The findings alone: what the repair proved afterwards is not asked.
    expect(leaders(belief(circuit, told.findings, { history: read.value.history }, predictor).suspects)).toContain(cause);
  });
});
