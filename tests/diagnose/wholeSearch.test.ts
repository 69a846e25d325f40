import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { afterRepair } from '../../src/diagnose/afterRepair.ts';
import { byHand } from '../../src/diagnose/byHand.ts';
import { usualTools } from '../../src/diagnose/candidates.ts';
import { cutEdges } from '../../src/diagnose/cutEdges.ts';
import { belief, diagnose } from '../../src/diagnose/diagnose.ts';
import { singleHypotheses } from '../../src/diagnose/hypotheses.ts';
import { plan } from '../../src/diagnose/plan.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { proofReadings } from '../../src/diagnose/proofReadings.ts';
import { doubted, sameAs, secondLooks } from '../../src/diagnose/secondLooks.ts';
import { splitJoints } from '../../src/diagnose/splitJoints.ts';
import { strategies } from '../../src/diagnose/strategies.ts';
import { placeName } from '../../src/diagnose/verdict.ts';
import type { Fault } from '../../src/faults/fault.ts';
import { network } from '../../src/solve/network.ts';
import { amperesThrough, operatingPoint, voltsAt } from '../../src/solve/operatingPoint.ts';
import { bench } from '../circuit/phraseCircuit.ts';
import { quiet } from '../solve/exact/madeCircuit.ts';
import { built, sketches } from '../solve/exact/randomCircuits.ts';
import { saw } from './library.ts';

const predictor = new Predictor(bench);
const proved = ['ON: T1 dead', 'ON: 12.6 V at R1.1', 'ON: 0 V at R1.2', 'off the vehicle: R1.1 to R1.2 open'] as const;

describe('joints on which alone a piece hangs', () => {
  test('are those without which nodes lose every way to the body: 300 random circuits, each branch taken out by itself', () => {
    const any = sketches({ points: 9, ohm: { least: 1, most: 100 }, supplies: 2, currents: 1, laws: 1 });
    let cut = 0;
    fc.assert(
      fc.property(any, (sketch) => {
        const at = operatingPoint(network(built(sketch)), quiet);
        const { beyond, island } = cutEdges(at);
        const { branches } = at.network;
        const carries = (k: number) => at.siemens[k] !== 0 || at.push[k] !== 0;
        const reached = (from: number, without: number) => {
          const met = new Set([from]);
          for (const n of met)
            for (const [k, b] of branches.entries())
              if (k !== without && carries(k)) {
                if (b.from === n) met.add(b.to);
                if (b.to === n) met.add(b.from);
              }
          return met;
        };
        const all = reached(0, -1);
        for (const k of branches.keys()) {
          const left = reached(0, k);
          const lost = [...all].filter((n) => !left.has(n)).sort((a, b) => a - b);
          if (lost.length > 0) cut++;
          expect(beyond(k) === undefined ? [] : [...beyond(k)!].sort((a, b) => a - b)).toEqual(lost);
        }
        for (let n = 0; n < at.nodeVolts.length; n++) expect(new Set(island(n))).toEqual(reached(n, -1));
      }),
      { seed: 20261201, numRuns: 300 },
    );
    expect(cut).toBeGreaterThan(200);
  });
});

test('with short wires for ideal joints every point has the volts that it had, and a joint carries what Kirchhoff says', () => {
  const short = splitJoints(bench);
  const scene = saw(bench, 'ON: T1 works')[0]!.scene;
  const [before, after] = [operatingPoint(network(bench), scene), operatingPoint(network(short), scene)];
  for (const part of bench.parts.values())
    for (const { name } of part.kind.terminals(part)) {
      const [a, b] = [voltsAt(before, `${part.id}.${name}`), voltsAt(after, `${part.id}.${name}`)];
      if (typeof a === 'number') expect(Math.abs(a - b!)).toBeLessThan(1e-3);
      else expect(b).toBe(a);
    }
  // W2 ties the battery to the body without a length: all of the current goes through it.
  expect(before.network.branches.some((b) => b.part === 'W2')).toBe(true);
  expect(Math.abs(amperesThrough(after, 'W2'))).toBeCloseTo(Math.abs(amperesThrough(after, 'G1')), 9);
  expect(Math.abs(amperesThrough(after, 'W2'))).toBeGreaterThan(1);
  expect(short.parts.get('R1')).toBe(bench.parts.get('R1'));
  expect(splitJoints(bench).parts.get('W2')!.kind).toBe(short.parts.get('W2')!.kind);
});

describe('after a repair', () => {
  const after = (notes: readonly string[], ...phrases: readonly string[]) => afterRepair(predictor, saw(bench, ...phrases), notes);
  test('what works proves itself only as far as it was seen, the whole table only where it was said to be run', () => {
    expect(after([], 'ON: T1 works')).toEqual({ amiss: [], tableRun: false, keyOffRead: false });
    expect(after(['whole table run again'], 'ON: T1 works')).toMatchObject({ amiss: [], tableRun: true });
    expect(after(['Whole Table run'], 'ON: T1 works')).toMatchObject({ tableRun: true });
    expect(after(['ran a part of it'], 'ON: T1 works')).toMatchObject({ tableRun: false });
    const bad = after(['whole table run again'], 'ON: T1 works', 'ON: M3 dead');
    expect(bad.amiss.map((f) => f.phrase)).toEqual(['ON, S3 at 1: M3 dead']);
    expect(bad.tableRun).toBe(false);
  });
  test('the key-off current counts with the key where it comes out, nothing on, at the battery, and only where it is sound', () => {
    const read = (...phrases: readonly string[]) => after([], ...phrases).keyOffRead;
    expect(read('key out: 0 A at G1.-')).toBe(true);
    expect(read('LOCK: 0 A at G1.+')).toBe(true);
    expect(read('ACC: 0 A at G1.-')).toBe(false);
    expect(read('key out: 0 A at S1.30')).toBe(false);
    expect(read('key out: 3 A at G1.-')).toBe(false);
    expect(read('key out: E8 dead')).toBe(false);
  });
});

describe('a search on the bench', () => {
  const said = saw(bench, ...proved);
  test('ends when it is proved and everything is explained, and is open again while something is left over', () => {
    expect(diagnose(bench, said, {}, predictor)).toMatchObject({ verdict: { state: 'proved', unexplained: [] }, next: [] });
    const more = saw(bench, ...proved, 'ON: E1 dead');
    const open = diagnose(bench, more, {}, predictor);
    expect(open.verdict).toMatchObject({ state: 'open', unexplained: [4] });
    expect(open.next.length).toBeGreaterThan(0);
  });
  test('tells its belief before it looks for readings', () => {
    const told: number[] = [];
    const whole = diagnose(bench, said, { onBelief: ({ suspects }) => told.push(suspects.length) }, predictor);
    expect(told).toEqual([whole.suspects.length]);
  });
  test('what was doubted is looked at three times at most, and each thing once in the list', () => {
    const { suspects, findings } = belief(bench, saw(bench, ...proved, 'ON: M3 dead'), {}, predictor);
    const [contrary] = doubted(suspects, findings);
    expect(contrary?.phrase).toBe('ON, S3 at 1: M3 dead');
    const thrice = saw(bench, ...proved, 'ON: M3 dead', 'ON: M3 works', 'ON: M3 dead');
    const held = belief(bench, thrice, {}, predictor);
    expect(doubted(held.suspects, held.findings).filter(sameAs(contrary!))).toEqual([]);
    expect(doubted([], findings)).toEqual([]);
    const again = secondLooks(predictor, suspects, findings);
    expect(again.map((r) => [r.again, r.bits > 0, sameAs(contrary!)(r.candidate)])).toEqual([[true, true, true]]);
  });
  test('a reading that is doubted is read once more where it was, with what to beware of there', () => {
    const read = saw(bench, ...proved, 'ON: 5 V at F3.1');
    const { suspects, findings } = belief(bench, read, {}, predictor);
    expect(doubted(suspects, findings).map((f) => f.phrase)).toEqual(['ON: 5 V at F3.1']);
    const [look] = secondLooks(predictor, suspects, findings);
    expect(look!.candidate.observable).toEqual(findings[4]!.observable);
    expect(look!.candidate.effort).toBe(1);
    // What stands already costs a minute.
    expect(look!.candidate.minutes).toBeGreaterThanOrEqual(1);
  });
  test('proof is looked for at the suspect alone, in the plain positions, and parts it from its rivals', () => {
    const { suspects, findings } = belief(bench, saw(bench, 'ON: T1 dead', 'ON: 12.6 V at R1.1', 'ON: 0 V at R1.2'), {}, predictor);
    expect(placeName(suspects[0]!)).toBe('R1');
    const found = proofReadings(predictor, suspects, findings, usualTools, 8);
    expect(found.length).toBeGreaterThan(1);
    for (const { candidate, bits, again } of found) {
      expect(JSON.stringify(candidate.observable)).toMatch(/R1/);
      expect(Object.keys(candidate.scene.hand)).toEqual([]);
      expect(bits).toBeGreaterThanOrEqual(0.2);
      expect(again).toBe(false);
    }
    expect(found.map((r) => r.worth)).toEqual([...found.map((r) => r.worth)].sort((a, b) => b - a));
    expect(proofReadings(predictor, suspects, findings, usualTools, 1)).toHaveLength(1);
    expect(proofReadings(predictor, suspects.slice(0, 1), findings, usualTools)).toEqual([]);
    expect(proofReadings(predictor, [], [], usualTools)).toEqual([]);
    const bare = proofReadings(predictor, suspects, findings, [], 8);
    expect(bare.every(({ candidate: { observable } }) => observable.of !== 'volts')).toBe(true);
  });
});

test('the plan of a search is never cheaper than the best of all plans, and where few are left that is told', () => {
  const few = plan(
    bench,
    saw(bench, 'ON: M3 dead', 'ON, S3 at 1: 12.4 V at R3.1', 'ON, S3 at 1: 0 V at R3.2', 'ON, S3 at 2: M3 works'),
    {},
    predictor,
  );
  if (few.optimum === undefined) throw new Error('few enough to try all');
  expect(few.optimum).toBeLessThanOrEqual(few.minutes + 1e-6);
  expect(few.minutes).toBeLessThanOrEqual(1.5 * few.optimum + 1e-6);
});

test('a part that was exchanged for a known good one brings none of its own faults, and those of others stay', () => {
  const of = (phrase: string) => singleHypotheses(bench).find((h) => h.faults[0]?.phrase === phrase)!.faults[0]!;
  const [r1, w9] = [of('R1 open'), of('W9 open')];
  const { vehicles } = predictor;
  const same = (a: readonly Fault[], swapped: readonly string[], b: readonly Fault[]) =>
    expect(vehicles.of(a, swapped).map((v) => v.changes)).toEqual(vehicles.of(b).map((v) => v.changes));
  same([r1, w9], ['R1'], [w9]);
  same([r1, w9], ['W9', 'R3'], [r1]);
  same([r1, w9], ['R1', 'W9'], []);
  same([r1, w9], ['R3'], [r1, w9]);
});

test('what is wholly dead is taken as asked for though another switch is named, what only shows a little as it was said', () => {
  const phraseOf = (said: string) => saw(bench, said)[0]!.phrase;
  expect(phraseOf('ON: E1 dead')).toBe('ON, S8 pressed: E1 dead');
  expect(phraseOf('ON, S3 at 1: E1 dead')).toBe('ON, S3 at 1, S8 pressed: E1 dead');
  expect(phraseOf('ON, S3 at 1: E1 weak')).toBe('ON, S3 at 1: E1 weak');
  expect(phraseOf('key out: E1 dead')).toBe('key out: E1 dead');
});

describe('ways of working', () => {
  const lead = diagnose(bench, saw(bench, 'ON: T1 dead', 'ON: 12.6 V at R1.1'), {}, predictor);
  test('the cheapest first; a dearer hour makes all of them dearer, a dear part those that buy it', () => {
    const by = (prices?: Parameters<typeof strategies>[2]) => new Map(strategies(bench, lead, prices).map((s) => [s.id, s]));
    const money = strategies(bench, lead).map((s) => s.money);
    expect(money).toEqual([...money].sort((a, b) => a - b));
    const [usual, dear] = [by(), by({ hour: 200 })];
    for (const [id, s] of usual) {
      expect(dear.get(id)!.money).toBeGreaterThan(s.money);
      expect(dear.get(id)!.minutes).toBeCloseTo(s.minutes, 9);
    }
    const first = placeName(lead.suspects[0]!);
    const gold = by({ hour: 100, parts: { [first]: 1000 } });
    for (const [id, s] of usual) expect(gold.get(id)!.money).toBeGreaterThan(s.money + 1);
    const slow = by({ hour: 100, minutes: { [first]: 600 } });
    expect(slow.get('measure')!.minutes).toBeGreaterThan(usual.get('measure')!.minutes);
    expect(usual.get('swap')!.wasted).toBeGreaterThan(usual.get('measure')!.wasted);
  });
  test('without anyone to blame there is nothing to compare', () => {
    expect(strategies(bench, { ...lead, suspects: [] })).toEqual([]);
    const sound = lead.suspects.map((s) => ({ ...s, faults: [] }));
    expect(strategies(bench, { ...lead, suspects: sound })).toEqual([]);
  });
  test('by hand: halving takes a reading for each time that the path can be halved, and a switch first costs its change in vain', () => {
    const of = (phrase: string) => singleHypotheses(bench).find((h) => h.faults[0]?.phrase === phrase)!;
    const dead = byHand(predictor, of('R1 open'));
    expect(dead.halfSplit).toBeGreaterThan(4);
    // 90 minutes and the price of a switch, and then all of the halving.
    expect(dead.swapFirst).toBeGreaterThan(dead.halfSplit + 90);
    const lock = byHand(predictor, of('S1.30-15 open'));
    expect(lock.swapFirst).toBeCloseTo(dead.swapFirst - dead.halfSplit, 9);
    // A fault that no load shows is one reading.
    expect(byHand(predictor, { ...of('R1 open'), faults: [] }).halfSplit).toBe(4);
  });
});
