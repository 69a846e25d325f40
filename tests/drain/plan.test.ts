import { describe, expect, test } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { drainAnswer } from '../../src/drain/drainAnswer.ts';
import { quietReadings } from '../../src/drain/drainReadings.ts';
import { procedure } from '../../src/drain/procedure.ts';
import { bitsOf } from '../../src/drain/worth.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { vehicle } from '../circuits/vehicle.ts';

const { circuit } = vehicle('light-van');
const predictor = new Predictor(circuit);
const suspect = readFault('S1.30-75 stuck closed', circuit);
if (!suspect.ok) throw new Error('fault not read');
const { plan, hypothesis } = drainAnswer(circuit, { suspect: suspect.value }, predictor);
const decides = hypothesis!.predicts.decides!;

describe('the plan for a supposed stuck contact', () => {
  test('begins with the whole current and unplugs only after what wakes nothing', () => {
    expect(plan[0]!.way).toBe('clamp');
    const firstOff = plan.findIndex((s) => s.way === 'unplug' || s.way === 'bench');
    expect(firstOff).toBeGreaterThan(3);
    expect(plan.slice(firstOff).every((s) => s.way === 'unplug' || s.way === 'bench' || s.supposed !== s.healthy)).toBe(true);
  });

  test('the reading that decides comes next: it wakes nothing, so nothing is read before it but the whole current', () => {
    expect(decides.way).toBe('fuse drop');
    expect(plan[1]!.reading).toBe(decides.reading);
    expect(plan.filter((s) => s.reading === decides.reading)).toHaveLength(1);
  });

  test('one that decides by unplugging still waits for what wakes nothing, and is the first to be unplugged', () => {
    const after = readFinding('key out: 906 mA at G1.-, 15.8 mV from F6.1 to F6.2', circuit);
    if (!after.ok) throw new Error('not read');
    const answer = drainAnswer(circuit, { suspect: suspect.value, findings: after.value }, predictor);
    const step = answer.hypothesis!.predicts.decides!;
    expect(['unplug', 'bench']).toContain(step.way);
    const wakes = answer.plan.filter((s) => s.way === 'unplug' || s.way === 'bench');
    expect(wakes[0]!.reading).toBe(step.reading);
    expect(answer.plan.slice(-wakes.length)).toEqual(wakes);
  });

  test('what wakes nothing is otherwise ordered by bits a minute', () => {
    const worth = plan
      .filter((s) => s.reading !== decides.reading && s.way !== 'clamp' && s.way !== 'unplug' && s.way !== 'bench')
      .map((s) => s.bitsPerMinute);
    expect(worth).toEqual([...worth].sort((a, b) => b - a));
  });

  test('holds the fuse that would show it, with the millivolts of its cold resistance', () => {
    const step = plan.find((s) => s.reading.includes('F6.1'))!;
    // 0.9 A nameplate through 17.9 mΩ (5 A, from memory) is 16 mV.
    expect(step.supposedValue!).toBeGreaterThan(0.014);
    expect(step.supposedValue!).toBeLessThan(0.0175);
    expect(step.healthy).toBe('0.0 mV');
  });

  test('every reading can be typed back as a finding once it has its figure', () => {
    for (const { reading, way } of plan) {
      const said =
        way === 'look' ? reading.replace('works or not', 'dead') : way === 'bench' ? `${reading} open` : reading.replace('…', '1.2');
      expect(readFinding(said, circuit).ok, said).toBe(true);
    }
  });

  test('minutes and bits are positive, cautions stand with what needs them', () => {
    for (const s of plan) {
      expect(s.minutes).toBeGreaterThan(0);
      if (s.way !== 'look') expect(s.cautions.length, s.reading).toBeGreaterThan(0);
    }
  });
});

test('a reading on which all agree tells nothing; two that a meter parts tell one bit (entropy of two even outcomes)', () => {
  const [clamp] = quietReadings(circuit);
  const other = readFault('S14 stuck closed', circuit);
  if (!other.ok) throw new Error('fault not read');
  const same = [suspect.value, suspect.value].map((f, state) => ({ faults: [f], mass: 0.5, state }));
  const apart = [suspect.value, other.value].map((f, state) => ({ faults: [f], mass: 0.5, state }));
  expect(bitsOf(predictor, clamp!, same, 2)).toBe(0);
  expect(bitsOf(predictor, clamp!, apart, 2)).toBeCloseTo(1, 12);
});

test('millivolts closer than the meter and the fuse allow are one outcome', () => {
  const fuse = quietReadings(circuit).find((r) => r.observable.of === 'volts' && r.observable.at === 'F1.1')!;
  // Clock and radio memories, 8 mA through a 16 A fuse of some 4.5 mΩ: 0.04 mV, under half a step.
  const kept = readFault('A1 draws 10 mA', circuit);
  if (!kept.ok) throw new Error('fault not read');
  const shares = [
    { faults: [], mass: 0.5, state: 0 },
    { faults: [kept.value], mass: 0.5, state: 1 },
  ];
  expect(bitsOf(predictor, fuse, shares, 2)).toBe(0);
});

test('the ammeter is bypassed before anything wakes, and never starts an engine', () => {
  const text = procedure(undefined, true)
    .flatMap((a) => [a.does, ...a.cautions])
    .join(' ');
  for (const word of ['jumper', 'never start', 'door', 'airbag', 'alarm', 'settings']) expect(text).toContain(word);
});
