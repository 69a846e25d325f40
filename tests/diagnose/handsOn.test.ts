import { describe, expect, test } from 'vitest';
import { keySwitchOf, keyTakenOut } from '../../src/circuit/keySwitchOf.ts';
import { afterRepair } from '../../src/diagnose/afterRepair.ts';
import { handsOn, savedMinutes, usualTools } from '../../src/diagnose/candidates.ts';
import { singleHypotheses } from '../../src/diagnose/hypotheses.ts';
import { clamping, unplugging } from '../../src/diagnose/parting.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { network } from '../../src/solve/network.ts';
import { amperesThrough, operatingPoint } from '../../src/solve/operatingPoint.ts';
import { libraryCircuit, saw } from './library.ts';

const saloon = libraryCircuit('saloon');
const predictor = new Predictor(saloon);
const all = [...saloon.parts.keys()];
const loads = all.filter((id) => saloon.parts.get(id)!.isLoad);

test('a jumper is put past contacts and fuses only, and nowhere where it would blow its own fuse in the sound vehicle', () => {
  const tried = handsOn(predictor, all, usualTools, loads).filter((c) => c.scene.bridged.length > 0);
  expect(tried.length).toBeGreaterThan(10);
  for (const { scene, cautions } of tried) {
    const [from, to] = scene.bridged[0]!;
    expect(`${from} ${to}`).not.toMatch(/\.86 \S+\.85$/);
    expect(Math.abs(amperesThrough(predictor.vehicles.answer(predictor.vehicles.healthy, scene), 'jumper1'))).toBeLessThanOrEqual(10);
    expect(cautions.join()).toMatch(/never past a load/);
  }
});

test('where the starter turns the caution for it stands, whatever was complained of there: a dead gauge too', () => {
  const van = libraryCircuit('light-van');
  const asked = new Predictor(van);
  const said = saw(van, 'START: T1 dead');
  const tried = [...unplugging(asked, ['F3', 'S1'], said), ...clamping(asked, ['W1'], said)];
  expect(tried.length).toBeGreaterThan(1);
  for (const { cautions, minutes } of tried) {
    expect(cautions.join()).toMatch(/wheels chocked, hands clear/);
    expect(minutes).toBeGreaterThan(1);
  }
  for (const { cautions } of clamping(asked, ['W1'], said)) expect(cautions.join()).toMatch(/a wire that carries a short is hot/);
});

test('the current with the key out is read with the key out: a motorcycle parked with its lamp on draws by design', () => {
  const bike = libraryCircuit('motorcycle');
  const asked = new Predictor(bike);
  const [reading] = handsOn(asked, [], ['clamp']);
  expect(reading!.scene.key).toEqual(keyTakenOut(keySwitchOf(bike)!.model));
  expect(reading!.scene.key!.in).toBe(false);
});

describe('after the repair', () => {
  const run = (...phrases: readonly string[]) => afterRepair(predictor, saw(saloon, ...phrases), ['whole table run again']);
  test('a current read in another key position is not the one with the key out', () => {
    const amperes = amperesThrough(predictor.vehicles.answer(predictor.vehicles.healthy, saw(saloon, 'ON: 1 A at G1.-')[0]!.scene), 'G1');
    expect(run(`ON: ${Math.abs(amperes).toFixed(2)} A at G1.-`).keyOffRead).toBe(false);
  });
  test('a contact that is open on the bench where it ought to be closed is amiss', () => {
    const contact = keySwitchOf(saloon)!.model.contacts.find((c) => c.id === '30-15')!;
    expect(contact).toBeDefined();
    const after = run('off the vehicle: S1.30 to S1.15 at ON open');
    expect(after.amiss).toHaveLength(1);
    expect(after.tableRun).toBe(false);
    expect(run('off the vehicle: S1.30 to S1.15 at ON 0.02 ohm').amiss).toEqual([]);
  });
});

test('what was brought about by hand and stands still costs no minutes, what stood so before a third', () => {
  const boat = libraryCircuit('boat');
  const [hot, on] = saw(boat, 'ON, S5 hot: B1 dead', 'ON: P1 works');
  const whole = boat.parts.get('S5')!.kind.setting_min!;
  expect(whole).toBeGreaterThan(1);
  expect(savedMinutes(boat, hot!.scene.hand, [])).toBe(0);
  expect(savedMinutes(boat, hot!.scene.hand, [on!, hot!])).toBe(whole);
  expect(savedMinutes(boat, hot!.scene.hand, [hot!, on!])).toBeCloseTo((2 / 3) * whole, 12);
});

test('however many set-ups a search meets, the plain one keeps its layout, so that vehicles are still updated in it', () => {
  const board = libraryCircuit('bench-board');
  const ids = [...board.parts.keys()];
  const plain = network(board);
  for (const a of ids)
    for (const b of ids.slice(0, 6))
      if (a !== b) {
        network(board, [], { apart: [a, b], bridged: [], swapped: [] });
        network(board);
      }
  expect(network(board)).toBe(plain);
});

test('a wire that is moved and faulty besides is left to the whole solver, which knows both', () => {
  const van = libraryCircuit('light-van');
  const asked = new Predictor(van);
  const [scene] = saw(van, 'ON: T1 works').map((f) => f.scene);
  const singles = singleHypotheses(van);
  const changesOf = (faults: (typeof singles)[number]['faults']) => asked.vehicles.of(faults)[0]!.changes;
  const moved = singles.find((h) => changesOf(h.faults).some((c) => c.change.do === 'attach'))!;
  const wire = moved.faults[0]!.part;
  const open = singles.find((h) => h.faults[0]?.part === wire && / open$/.test(h.faults[0].phrase))!;
  const [vehicle] = asked.vehicles.of([...moved.faults, ...open.faults]);
  const before = asked.vehicles.counts.updated;
  const quick = asked.vehicles.answer(vehicle!, scene!);
  expect(asked.vehicles.counts.updated).toBe(before);
  const whole = operatingPoint(network(asked.vehicles.circuit, vehicle!.changes, scene!), scene!);
  for (const [n, volt] of whole.nodeVolts.entries()) expect(quick.nodeVolts[n]).toBeCloseTo(volt, 6);
});
