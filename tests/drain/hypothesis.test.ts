import { describe, expect, test } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { drainAnswer } from '../../src/drain/drainAnswer.ts';
import { hypothesisView } from '../../src/drain/hypothesis.ts';
import { keyOff, keyOffScene } from '../../src/drain/keyOff.ts';
import { changesOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { vehicle } from '../circuits/vehicle.ts';

const { circuit } = vehicle('light-van');
const predictor = new Predictor(circuit);
const stuck = readFault('S1.30-75 stuck closed', circuit);
if (!stuck.ok) throw new Error('fault not read');
const fault = stuck.value;
const found = (...phrases: readonly string[]) =>
  phrases.flatMap((p) => {
    const read = readFinding(p, circuit);
    if (!read.ok) throw new Error(`${p}: ${read.problems[0]!.what}`);
    return read.value;
  });
const held = (...phrases: readonly string[]) => hypothesisView(circuit, fault, found(...phrases), predictor);

describe('accessory contact stuck: accessories stay live with the key removed, and the battery runs flat (trade fact, common practice)', () => {
  const view = held();

  test('it predicts the radio playing with the key out, and its 0.9 A nameplate on the battery cable', () => {
    expect(view.predicts.alive.map((l) => l.id)).toEqual(['A1']);
    expect(view.predicts.alive[0]!.verdict).toBe('works');
    expect(view.predicts.amperes).toBeGreaterThan(0.85);
    expect(view.predicts.amperes).toBeLessThan(0.95);
    expect(view.predicts.positions).toContain('LOCK');
  });

  test('the battery is too flat within days instead of months', () => {
    const answer = drainAnswer(circuit, { suspect: fault }, predictor);
    expect(answer.supposedBattery!.hoursToNoStart).toBeLessThan(3 * 24);
    expect(answer.healthyBattery!.hoursToNoStart).toBeGreaterThan(60 * 24);
  });

  test('what is in besides, and how the vehicle was left, are in the prediction and in what it is held against', () => {
    const lamp = readFault('S14 stuck closed', circuit);
    if (!lamp.ok) throw new Error('fault not read');
    const alone = view.predicts;
    const both = drainAnswer(circuit, { suspect: fault, faults: [lamp.value] }, predictor).hypothesis!.predicts;
    const door = keyOffScene(circuit);
    const opened = drainAnswer(circuit, { suspect: fault, scene: { ...door, hand: { S14: 'open' } } }, predictor).hypothesis!.predicts;
    const lamp_A = keyOff(circuit, changesOf([lamp.value])).amperes - alone.without;
    expect(lamp_A).toBeGreaterThan(0.3);
    for (const predicts of [both, opened]) {
      expect(predicts.without).toBeCloseTo(alone.without + lamp_A, 2);
      expect(predicts.amperes).toBeCloseTo(alone.amperes + lamp_A, 1);
    }
  });

  test('without a reading it is open', () => {
    expect(view.verdict).toBe('open');
    expect(view.text).toContain('not tested yet');
    expect(view.predicts.decides!.supposed).not.toBe(view.predicts.decides!.healthy);
  });
});

test('one current alone leaves it open: wires on its way fit as well', () => {
  const view = held('key out: 906 mA at G1.-');
  expect(view.verdict).toBe('open');
  expect(view.rivals.length).toBeGreaterThan(2);
  expect(view.held).toEqual([{ phrase: 'key out: 906 mA at G1.-', predicted: '898 mA', fits: true }]);
});

test('it is proved by the fuse, the unplugged switch, and an ohmmeter at LOCK', () => {
  const view = held(
    'key out: 906 mA at G1.-',
    'key out: 15.8 mV from F6.1 to F6.2',
    'key out, unplugged X2: 9 mA at G1.-',
    'off the vehicle: S1.30 to S1.75 at LOCK 0.1 Ω',
  );
  expect(view.verdict).toBe('proved');
  expect(view.predicts.decides).toBeUndefined();
  // What is listed as fitting is not ruled out in the same breath.
  expect(view.rivals.length).toBeGreaterThan(0);
  for (const r of view.rivals) expect(view.text.split(' except ')[1]).toContain(r.faults.join(' and '));
});

test('it is rejected by a silent radio and another current, and the rejection says what it would have been', () => {
  const view = held('key out: 430 mA at G1.-', 'key out: A1 dead', 'key out: E8 works');
  expect(view.verdict).toBe('rejected');
  expect(view.text).toContain('"key out: A1 dead" would have been works');
  expect(view.rivals[0]!.faults).toEqual(['S14 stuck closed']);
});

test('rare is not rejected: a leaking wire that fits stays open', () => {
  const rare = readFault('W53 leaks 50 Ω', circuit);
  if (!rare.ok) throw new Error('fault not read');
  const amperes = hypothesisView(circuit, rare.value, [], predictor).predicts.amperes;
  const view = hypothesisView(circuit, rare.value, found(`key out: ${Math.round(1000 * amperes)} mA at G1.-`), predictor);
  expect(view.verdict).toBe('open');
  expect(view.held[0]!.fits).toBe(true);
});

test('more evidence never revives a rejected hypothesis', () => {
  const before = held('key out: 430 mA at G1.-', 'key out: A1 dead', 'key out: E8 works');
  const after = held('key out: 430 mA at G1.-', 'key out: A1 dead', 'key out: E8 works', 'key out, unplugged S14: 9 mA at G1.-');
  expect(before.verdict).toBe('rejected');
  expect(after.verdict).toBe('rejected');
});
