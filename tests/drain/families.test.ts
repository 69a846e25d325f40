import { expect, test } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { batteryCable } from '../../src/drain/drainReadings.ts';
import { hypothesisView } from '../../src/drain/hypothesis.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { vehicle } from '../circuits/vehicle.ts';

/** Families of 'live in OFF' and of key-off draws that workshops look for (procedures of practice). */
const families = [
  { family: 'bridged contact', circuit: 'light-van', phrase: 'S1.30-75 bridged 20 Ω', falls: true },
  { family: 'switch does not follow the key', circuit: 'light-van', phrase: 'S1 stays behind 30°' },
  { family: 'backfeed by a permanently live circuit', circuit: 'light-van', phrase: 'W18a short to feed' },
  { family: 'diode leak of the alternator', circuit: 'light-van', phrase: 'G2 diode leaks 400 mA' },
  { family: 'lamp that stays on', circuit: 'light-van', phrase: 'S14 stuck closed', falls: true },
  { family: 'accessory on the wrong feed', circuit: 'light-van', phrase: 'W49.1 on S1.30' },
  { family: 'accessory added behind a fuse', circuit: 'light-van', phrase: 'F1 feeds an accessory 500 mA' },
  { family: 'wet connector', circuit: 'light-van', phrase: 'X2.1-2 bridged 20 Ω', falls: true },
  { family: 'relay welded', circuit: 'saloon', phrase: 'K5 contact stuck closed' },
  { family: 'module that will not sleep', circuit: 'modern-saloon', phrase: 'A2 stays awake' },
] as const satisfies readonly { family: string; circuit: string; phrase: string; falls?: true }[];

const kept = new Map<string, Predictor>();
function predictorOf(name: (typeof families)[number]['circuit']): Predictor {
  const known = kept.get(name) ?? new Predictor(vehicle(name).circuit);
  kept.set(name, known);
  return known;
}
const seen = (phrase: string, { circuit }: Predictor) => {
  const read = readFinding(phrase, circuit);
  if (!read.ok) throw new Error(`${phrase}: ${read.problems[0]!.what}`);
  return read.value;
};

test.each(families)(
  '$family ($phrase on $circuit): its own current leaves it standing, a healthy one speaks against it',
  { timeout: 120_000 },
  (row) => {
    const { circuit: name, phrase } = row;
    const predictor = predictorOf(name);
    const { circuit } = predictor;
    const fault = readFault(phrase, circuit);
    if (!fault.ok) throw new Error(fault.problems[0]!.what);
    const { predicts } = hypothesisView(circuit, fault.value, [], predictor);
    expect(predicts.amperes - predicts.without).toBeGreaterThan(0.1);
    expect(predicts.decides).toBeDefined();
    const at = `at ${batteryCable(circuit)}`;
    const own = hypothesisView(
      circuit,
      fault.value,
      seen(`key out: ${Math.round(1000 * predicts.amperes)} mA ${at}`, predictor),
      predictor,
    );
    expect(own.verdict).not.toBe('rejected');
    expect(own.held[0]!.fits).toBe(true);
    // A switch that stays behind by less than a contact's sector draws nothing: a sound current does not reject every degree of it.
    if (!('falls' in row)) return;
    const sound = hypothesisView(
      circuit,
      fault.value,
      seen(`key out: ${Math.round(1000 * predicts.without)} mA ${at}`, predictor),
      predictor,
    );
    expect(sound.verdict).toBe('rejected');
  },
);

test("the battery's own leak: the clamp reads what it should, and the days are short all the same", () => {
  const predictor = predictorOf('light-van');
  const fault = readFault('G1 leaks 50 mA', predictor.circuit);
  if (!fault.ok) throw new Error(fault.problems[0]!.what);
  const { predicts } = hypothesisView(predictor.circuit, fault.value, [], predictor);
  expect(predicts.amperes).toBeCloseTo(predicts.without, 5);
  expect(predicts.inside).toBeCloseTo(0.05, 4);
});

test('a relay whose coil is held is warm to the hand: 12.6 V over 90 Ω are 1.8 W (arithmetic)', () => {
  const predictor = predictorOf('modern-saloon');
  const fault = readFault('A2 stays awake', predictor.circuit);
  if (!fault.ok) throw new Error(fault.problems[0]!.what);
  const { warm } = hypothesisView(predictor.circuit, fault.value, [], predictor).predicts;
  const relay = warm.find((w) => w.part === 'K7')!;
  expect(relay.watts).toBeGreaterThan(1.6);
  expect(relay.watts).toBeLessThan(1.9);
});
