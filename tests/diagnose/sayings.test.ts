import { describe, expect, test } from 'vitest';
import { belief } from '../../src/diagnose/diagnose.ts';
import { singleHypotheses } from '../../src/diagnose/hypotheses.ts';
import { type nextReadings, worthwhile } from '../../src/diagnose/nextReading.ts';
import { asWatched, believed, massOf, type Saying, sayingsOf } from '../../src/diagnose/outcomes.ts';
import { unplugging } from '../../src/diagnose/parting.ts';
import { type Prediction, Predictor } from '../../src/diagnose/predict.ts';
import { played } from '../../src/diagnose/technician.ts';
import { bench } from '../circuit/phraseCircuit.ts';
import { saw } from './library.ts';

/** What one believed state says where the predictor expects this of it. */
const said = (is: Prediction | readonly (readonly [share: number, is: Prediction])[], observable: object = { of: 'engine' }) =>
  sayingsOf(
    { expected: () => (Array.isArray(is) ? is.map(([share, one]) => ({ share, is: one })) : [{ share: 1, is }]) } as never,
    { observable } as never,
    [{ suspect: 3, mass: 0.5, faults: [] }],
  );
const labels = (list: readonly Saying[]) => list.map((s) => [s.label, s.chance]);

describe('what a state of the vehicle says of a reading', () => {
  const engine = (cranks: boolean, alive: boolean, more: { slowly?: boolean; turning?: boolean } = {}): Prediction => ({
    of: 'engine',
    cranks,
    alive,
    slowly: more.slowly ?? false,
    turning: more.turning ?? true,
  });
  test.each([
    ['fires', engine(true, true)],
    ['fires', engine(true, true, { slowly: true })],
    ['cranks', engine(true, false)],
    ['cranks slowly', engine(true, false, { slowly: true })],
    ['runs', engine(false, true)],
    ['dies', engine(false, false)],
    ['still', engine(false, false, { turning: false })],
    ['still', engine(false, true, { turning: false })],
  ])('the engine %s: %j', (word, is) => {
    expect(labels(said(is))).toEqual([[`engine ${word}`, 1]]);
  });

  test('a load its verdict, one that buzzes that it comes and goes', () => {
    const load = (verdict: 'works' | 'weak' | 'dead' | 'chatters') => labels(said({ of: 'load', verdict, watts: 0 }));
    expect([load('works'), load('weak'), load('dead'), load('chatters')]).toEqual([
      [['works', 1]],
      [['weak', 1]],
      [['dead', 1]],
      [['comes and goes', 1]],
    ]);
  });

  test('volts, amperes and ohms their value with the width that an instrument leaves it; nothing at all is 0 V, no way open', () => {
    const volts = (volt: number | null, wide = false): Prediction => ({ of: 'volts', volt, wide, spread: 0, range: 12 });
    const [high, none, wide] = [said(volts(12)), said(volts(null)), said(volts(12, true))].map(([s]) => s!);
    expect([high!.label, high!.at, none!.at]).toEqual(['', 12, 0]);
    expect(high!.width).toBeGreaterThan(0);
    expect(wide!.width).toBeGreaterThan(high!.width);
    const [amperes] = said({ of: 'amperes', ampere: 2, spread: 0, drift: 0.01 });
    // A clamp is off by 10 mA and a tenth.
    expect([amperes!.at, amperes!.width]).toEqual([2, expect.closeTo(0.21, 9)]);
    const [ohms] = said({ of: 'ohms', ohm: 10 });
    expect([ohms!.label, ohms!.at, ohms!.width]).toEqual(['', 10, expect.closeTo(3.2, 9)]);
    expect(labels(said({ of: 'ohms', ohm: 1e6 }))).toEqual([['', 1]]);
    expect(labels(said({ of: 'ohms', ohm: 1e7 }))).toEqual([['open', 1]]);
    expect(labels(said({ of: 'ohms', ohm: Number.POSITIVE_INFINITY }))).toEqual([['open', 1]]);
  });

  test('an exchange what it would bring, each with its chance, and not what cannot be', () => {
    const of = (chance: Partial<Record<'no change' | 'cured' | 'changes', number>>) =>
      said({ of: 'outcome', chance }).map((s) => [s.label, Number(s.chance.toFixed(6))]);
    expect(of({ cured: 0.9 })).toEqual([
      ['cured', 0.9],
      ['no change', 0.1],
    ]);
    expect(of({ cured: 0.25, changes: 0.75 })).toEqual([
      ['cured', 0.25],
      ['changes', 0.5],
      ['no change', 0.25],
    ]);
    expect(of({})).toEqual([['no change', 1]]);
    expect(of({ cured: 1, changes: 1 })).toEqual([['cured', 1]]);
  });

  test('each world counts by its share of the belief', () => {
    const two = said([
      [0.7, { of: 'load', verdict: 'works', watts: 0 }],
      [0.3, { of: 'load', verdict: 'dead', watts: 0 }],
    ]);
    expect(two.map((s) => [s.label, s.of.suspect, s.of.weight])).toEqual([
      ['works', 3, 0.35],
      ['dead', 3, 0.15],
    ]);
  });

  test('a load that is watched and differs from world to world mostly comes and goes; at one moment, or where all agree, it does not', () => {
    const worlds = [
      [0.5, { of: 'load', verdict: 'works', watts: 0 }],
      [0.5, { of: 'load', verdict: 'dead', watts: 0 }],
    ] as const;
    const watched = said(worlds, { of: 'load', load: 'M3' });
    expect(watched.map((s) => s.label)).toEqual(['comes and goes', 'works', 'dead']);
    const share = (label: string) => watched.filter((s) => s.label === label).reduce((sum, s) => sum + s.of.weight * s.chance, 0);
    expect(share('comes and goes')).toBeGreaterThan(share('works') + share('dead'));
    expect(share('comes and goes') + share('works') + share('dead')).toBeCloseTo(0.5, 12);
    expect(said(worlds, { of: 'load', load: 'M3', during: 'wiggle' }).map((s) => s.label)).toEqual(['works', 'dead']);
    expect(asWatched(said([worlds[0], worlds[0]])).map((s) => s.label)).toEqual(['works', 'works']);
    expect(asWatched([])).toEqual([]);
  });
});

describe('readings by the tools at hand', () => {
  const predictor = new Predictor(bench);
  const findings = saw(bench, 'key out: 400 mA at G1.-');
  const { suspects } = belief(bench, findings, {}, predictor);
  const kinds = (tools: Parameters<typeof nextReadings>[3]) => {
    const held = believed(suspects);
    const many = 1 + Math.max(...held.map((h) => h.suspect));
    expect(massOf(held, many).reduce((sum, x) => sum + x, 0)).toBeCloseTo(1, 9);
    return new Set(
      worthwhile(predictor, held, many, findings, tools!, 200).map(({ candidate: { observable: o } }) =>
        'instrument' in o ? o.instrument : o.of,
      ),
    );
  };
  test('what there is no tool for is not proposed', () => {
    const [bare, meter, clamp] = [kinds([]), kinds(['meter']), kinds(['clamp'])];
    expect([...bare].filter((k) => k === 'meter' || k === 'clamp')).toEqual([]);
    expect(meter.has('clamp')).toBe(false);
    expect(clamp.has('clamp')).toBe(true);
    expect([...clamp].filter((k) => k === 'meter')).toEqual([]);
  });
  test('what a suspected wire is fastened to is unplugged, whichever of its ends the file names first; never what is read', () => {
    // W9 runs from R3.2 to M3.1, W3 from J1 over the plug X2 to S1.30.
    const apart = (id: string, phrase = 'key out: 400 mA at G1.-') =>
      [...new Set(unplugging(predictor, [id], saw(bench, phrase)).map((c) => c.scene.apart.join()))].sort();
    expect(apart('W9')).toEqual(['M3', 'R3']);
    expect(apart('W9', 'ON, S3 at 1: M3 dead')).toEqual(['R3']);
    expect(apart('W9', 'ON, S3 at 1: 0 V at R3.2')).toEqual(['M3']);
    expect(apart('W9', 'ON, S3 at 1: 0 V at M3.1')).toEqual(['R3']);
    expect(apart('W1')).toEqual(['J1']);
  });
});

describe('a simulated search', () => {
  const predictor = new Predictor(bench);
  const truth = singleHypotheses(bench).find((h) => h.faults[0]?.phrase === 'R1 open')!;
  const steady = () => 0.5;
  test('with a sure hand it ends at the fault, counts its readings and minutes, and notes what the vehicle shows', () => {
    const search = played(predictor, truth, steady, { slips: 0 })!;
    expect(search).toMatchObject({ isolated: true, amongThree: true, state: 'proved' });
    expect(search.findings.length - search.readings).toBeGreaterThanOrEqual(1);
    expect(search.minutes).toBeGreaterThan(search.readings * 0.1);
    for (const f of search.findings) {
      // Read back it is the same finding: what is noted is a phrase like any other.
      const [again] = saw(bench, f.phrase);
      expect(again).toMatchObject({ observable: f.observable });
    }
    const none = played(predictor, truth, steady, { slips: 0, most: 0 })!;
    expect([none.readings, none.minutes]).toEqual([0, 0]);
    expect(none.findings.length).toBe(search.findings.length - search.readings);
    const two = played(predictor, truth, steady, { slips: 0, most: 2 })!;
    expect(two.readings).toBe(Math.min(2, search.readings));
    expect(two.findings.map((f) => f.phrase)).toEqual(search.findings.slice(0, two.findings.length).map((f) => f.phrase));
  });
  test('a slip is an outcome that the vehicle does not show', () => {
    const right = played(predictor, truth, steady, { slips: 0, most: 1 })!;
    const wrong = played(predictor, truth, steady, { slips: 1, most: 1 })!;
    expect(wrong.findings.slice(0, -1)).toEqual(right.findings.slice(0, -1));
    expect(wrong.findings.at(-1)!.observable).toEqual(right.findings.at(-1)!.observable);
    expect(wrong.findings.at(-1)!.seen).not.toEqual(right.findings.at(-1)!.seen);
  });
  test('what nobody would notice is no search', () => {
    expect(played(predictor, { ...truth, faults: [], suspect: '' }, steady, { most: 0 })).toBeUndefined();
  });
});
