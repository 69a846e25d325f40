import { describe, expect, test } from 'vitest';
import { fuseCurves } from '../../src/parts/shared/fuseCurve.ts';
import { bench, smallVehicle } from './benches.ts';
import { told } from './told.ts';

/** A protective part with a resistance of `ohm` behind it, switched on at 0 s. */
const behind = (part: string, ohm: number) =>
  bench(
    `S1: { kind: switch, contact: 1 nΩ }
     F1: { kind: ${part}, resistance: 1 nΩ }
     R1: { kind: resistor, resistance: ${ohm} Ω }`,
    'G1.+ -> S1.1\nS1.2 -> F1.1\nF1.2 -> R1.1\nR1.2 -> ground',
  );

// ISO 8820-3 as makers' data sheets of blade fuses print it (secondary; 135, 350 and 600 % from memory), share of the rating and seconds.
const rows = [
  [1.35, 0.75, 600],
  [1.6, 0.25, 50],
  [2, 0.15, 5],
  [3.5, 0.08, 0.5],
  [6, 0.03, 0.1],
] as const;

describe('a blade fuse opens within the limits of the table, five ratings', () => {
  for (const rating of [5, 7.5, 10, 15, 30])
    test.each(rows)(`${rating} A at %f times: %f to %f s`, (share, least, most) => {
      const [opened] = told(behind(`fuse, rating: ${rating} A`, 12 / (rating * share)), 'S1 on 15 min').times('F1', 'blown');
      expect(opened).toBeGreaterThanOrEqual(least);
      expect(opened).toBeLessThanOrEqual(most);
    });
  // The same sheets: 110 % holds for 100 h.
  test.each([5, 7.5, 10, 15, 30])('%f A holds 110 %% for 100 h', (rating) => {
    expect(told(behind(`fuse, rating: ${rating} A`, 12 / (rating * 1.09)), 'S1 on 100 h').events('F1')).toEqual([]);
  });
});

test('a fuse adds up what it was heated: two bursts that it bears apart open it together', () => {
  const circuit = behind('fuse, rating: 10 A', 0.6);
  const middle = Math.sqrt(0.15 * 5); // geometric mean of the row at 200 %
  const burst = `S1 on ${(0.7 * middle).toFixed(3)} s, S1 off`;
  expect(told(circuit, `${burst} 10 min, ${burst} 1 s`).events('F1')).toEqual([]);
  expect(told(circuit, `${burst} 1 s, ${burst} 1 s`).times('F1', 'blown')).toHaveLength(1);
  expect(fuseCurves.blade.rows[2]).toMatchObject({ share: 2, least_s: 0.15, most_s: 5 });
});

describe('circuit breakers, trip times and types by a description of SAE J553 (secondary, times from memory)', () => {
  const breaker = (type: number) => behind(`circuit-breaker, type: ${type}, rating: 10 A`, 0.6);
  test('200 % trips it in 5 to 60 s, and a type 1 closes again after 5 to 60 s', () => {
    const { times } = told(breaker(1), 'S1 on 3 min');
    const [trips, closes] = [times('F1', 'open'), times('F1', 'no longer open')];
    expect(trips[0]).toBeGreaterThan(5);
    expect(trips[0]).toBeLessThan(60);
    expect(closes[0]! - trips[0]!).toBeGreaterThan(5);
    expect(closes[0]! - trips[0]!).toBeLessThan(60);
    expect(trips.length).toBeGreaterThan(2);
  });
  test('a type 2 stays open until its volts are taken away, a type 3 after that as well', () => {
    expect(told(breaker(2), 'S1 on 3 min').times('F1', 'no longer open')).toEqual([]);
    expect(told(breaker(2), 'S1 on 1 min, S1 off 2 min').times('F1', 'no longer open')).toHaveLength(1);
    expect(told(breaker(3), 'S1 on 1 min, S1 off 2 min').times('F1', 'no longer open')).toEqual([]);
  });
});

describe('filament inrush', () => {
  const lamp = bench('S1: { kind: switch }\nE1: { kind: lamp, power: 21 W }', 'G1.+ -> S1.1\nS1.2 -> E1.1\nE1.2 -> ground');
  const { at } = told(lamp, 'S1 on 1 s, S1 off 0.1 s, S1 on 1 s');
  const amperes = (t: number) => at(t).loads[0]!.amperes;
  const steady = amperes(0.9);
  // White papers and lamp pages (secondary): peak of 10 to 12 times, twice after 3 to 5 ms, steady in about 50 ms.
  test('begins with ten times its current, has twice after 3 to 5 ms, is steady within 50 ms', () => {
    expect(steady).toBeCloseTo(1.75, 1);
    expect(amperes(0) / steady).toBeGreaterThan(9);
    expect(amperes(0) / steady).toBeLessThan(12);
    const twice = [...Array(60).keys()].map((k) => k / 5000).find((t) => amperes(t) < 2.2 * steady);
    expect(twice).toBeGreaterThan(0.002);
    expect(twice).toBeLessThan(0.006);
    expect(Math.abs(amperes(0.05) / steady - 1)).toBeLessThan(0.01);
  });
  test('is still warm a tenth of a second after it went out', () => {
    expect(amperes(1.1) / steady).toBeLessThan(6);
    expect(amperes(1.1) / steady).toBeGreaterThan(1.5);
  });
});

test('heat follows 1 − e^(−t/T): 63.2 % after one time constant, 86.5 % after two, 95.0 % after three (any handbook of physics)', () => {
  const story = told(smallVehicle('2 W'), 'ON, wait 20 s, wait 20 s, wait 20 s, wait 10 min', ['S1.30-15 opens hot 20 A']);
  const heat = (t: number) => Number(story.at(t).at.states.get('S1')?.['heat 30-15']);
  const begins = story.played.samples.find((s) => (s.loads.find((l) => l.id === 'T1')?.amperes ?? 0) > 1)!.t;
  // The contact closes on the way to ON, so the samples lie a little later than whole time constants after that.
  for (const [k, share] of [0.632, 0.865, 0.95].entries()) {
    const t = 0.4 + 20 * (k + 1);
    const late = (1 - share) * (1 - Math.exp(-(t - begins - 20 * (k + 1)) / 20));
    expect(heat(t) / heat(660)).toBeCloseTo(share + late, 2);
  }
});

describe('a key contact that opens hot', () => {
  const story = told(smallVehicle('2 W'), 'ON 5 min', ['S1.30-15 opens hot 3 A']);
  test('opens after a while, closes again by itself, and the coil comes and goes with it', () => {
    const [opens, closes] = [story.times('S1', '30-15 open by heat'), story.times('S1', 'no longer 30-15 open by heat')];
    expect(opens.length).toBeGreaterThan(2);
    expect(closes[0]).toBeGreaterThan(opens[0]! + 1);
    expect(story.is('T1', opens[0]! - 0.1)).toBe('works');
    expect(story.is('T1', opens[0]! + 0.1)).toBe('dead');
    expect(story.is('T1', closes[0]! + 0.1)).toBe('works');
  });
  test('never opens under the current that it bears', () => {
    expect(told(smallVehicle('2 W'), 'ON 5 min', ['S1.30-15 opens hot 8 A']).events('S1')).toEqual([]);
  });
});

describe('relays and solenoids', () => {
  const relay = (more: string) =>
    bench(
      `S1: { kind: switch }\nK1: { kind: relay, form: make${more} }\nE1: { kind: lamp, power: 5 W }`,
      'G1.+ -> S1.1\nS1.2 -> K1.86\nK1.85 -> ground\nG1.+ -> K1.30\nK1.87 -> E1.1\nE1.2 -> ground',
    );
  // Maker's sheets of cube relays (secondary): 5 ms and 3 ms; with a diode three to five times longer (from memory).
  test.each([
    ['', 0.005, 0.003],
    [', suppression: diode', 0.005, 0.012],
  ])('%s operates after %f s and releases after %f s', (more, operates, releases) => {
    const { times } = told(relay(more), 'S1 on 1 s, S1 off 1 s');
    expect(times('K1', 'pulled')[0]).toBeCloseTo(operates, 4);
    expect(times('K1', 'no longer pulled')[0]! - 1).toBeCloseTo(releases, 4);
  });
  test('a relay that cuts its own coil ends the story, with its rate and its name', () => {
    const buzzer = bench(
      'S1: { kind: switch }\nK1: { kind: relay, form: changeover }',
      'G1.+ -> S1.1\nS1.2 -> K1.30\nK1.87a -> K1.86\nK1.85 -> ground',
    );
    const { played } = told(buzzer, 'S1 on 10 s');
    expect(played.chatters?.parts).toEqual(['K1']);
    // 5 ms to operate, 3 ms to release: 250 changes in a second.
    expect(played.chatters?.perSecond).toBeCloseTo(250, -1);
    expect(played.end.t).toBeLessThan(1);
    expect(played.events.at(-1)?.what).toMatch(/chatters, \d+ changes a second: K1/);
  });
});

describe('timers', () => {
  test('a timed relay waits, stays its time, and holds on', () => {
    const timed = (how: string) =>
      bench(
        `S1: { kind: switch }\nK1: { kind: timed-relay, ${how} }\nE1: { kind: lamp, power: 5 W }`,
        'G1.+ -> S1.1\nS1.2 -> K1.15\nK1.31 -> ground\nG1.+ -> K1.30\nK1.87 -> E1.1\nE1.2 -> ground',
      );
    const after = told(timed('after: 3 s, for: 10 s'), 'S1 on 30 s');
    expect([after.is('E1', 2.9), after.is('E1', 3.1), after.is('E1', 12.9), after.is('E1', 13.1)]).toEqual([
      'dead',
      'works',
      'works',
      'dead',
    ]);
    const holds = told(timed('holds: 4 s'), 'S1 on 5 s, S1 off 10 s');
    expect([holds.is('E1', 0.1), holds.is('E1', 8.9), holds.is('E1', 9.1)]).toEqual(['works', 'works', 'dead']);
  });
  test('a glow timer glows for its time and again after the next switching on', () => {
    const glow = bench(
      'S1: { kind: switch }\nA1: { kind: glow-timer, glows: 8 s }\nE1: { kind: glow-plug }',
      'G1.+ -> S1.1\nS1.2 -> A1.15\nA1.31 -> ground\nG1.+ -> A1.30\nA1.G -> E1.1\nE1.2 -> ground',
    );
    const { is } = told(glow, 'S1 on 20 s, S1 off 5 s, S1 on 3 s');
    expect([is('E1', 1), is('E1', 7.9), is('E1', 8.2), is('E1', 27)]).toEqual(['works', 'works', 'dead', 'works']);
  });
  // Handbook copies (secondary): 10 to 12 A steady; from memory: it starts with 1.5 to 2.5 times that, for 5 to 10 s.
  test('a glow plug starts with about twice its steady current and falls in 5 to 10 s', () => {
    const plug = bench('S1: { kind: switch }\nE1: { kind: glow-plug }', 'G1.+ -> S1.1\nS1.2 -> E1.1\nE1.2 -> ground');
    const { at } = told(plug, 'S1 on 10 s, wait 50 s');
    const amperes = (t: number) => at(t).loads[0]!.amperes;
    expect(amperes(60)).toBeGreaterThan(10);
    expect(amperes(60)).toBeLessThan(12);
    expect(amperes(0) / amperes(60)).toBeGreaterThan(1.5);
    expect(amperes(0) / amperes(60)).toBeLessThan(2.5);
    expect(amperes(10) / amperes(60)).toBeLessThan(1.1);
  });
});

describe('a module', () => {
  const module = bench(
    'S1: { kind: switch }\nA1: { kind: module, pins: { "30": { awake: 500 mA, after-run: 100 mA, asleep: 5 mA }, "15": 20 mA }, stays-awake: 2 min, after-run: 15 min }',
    'G1.+ -> A1.30\nG1.+ -> S1.1\nS1.2 -> A1.15\nA1.31 -> ground',
    '{ kind: battery, capacity: 50 Ah, self-discharge: 0 % }',
  );
  const { at } = told(module, 'S1 on 1 min, S1 off 1 h');
  const amperes = (t: number) => at(t).loads.find((l) => l.id === 'A1')!.amperes;
  test('wakes at once, stays awake for two minutes, runs on for fifteen, and sleeps', () => {
    expect([30, 60 + 119, 60 + 121, 60 + 120 + 899, 60 + 120 + 901].map((t) => Math.round(1000 * amperes(t)))).toEqual([
      498, 498, 100, 100, 5,
    ]);
  });
});

describe('a wiper switched off on its way', () => {
  const wiper = bench(
    'S1: { kind: switch }\nM1: { kind: wiper-motor, stroke: 1.4 s }',
    'G1.+ -> M1.53a\nG1.+ -> S1.1\nS1.2 -> M1.53\nM1.31 -> ground',
  );
  test('runs on to its rest and stops there', () => {
    const { is, times } = told(wiper, 'S1 on 5 s, S1 off 5 s');
    expect(is('M1', 5.1)).toBe('works');
    const rest = times('M1', 'parked').find((t) => t > 5)!;
    expect(rest - 5).toBeLessThan(1.6);
    expect(is('M1', rest + 1)).toBe('dead');
  });
  test('stops where it is with an open park switch, and never with one stuck closed', () => {
    expect(told(wiper, 'S1 on 5 s, S1 off 5 s', ['M1.park open']).is('M1', 5.2)).toBe('dead');
    expect(told(wiper, 'S1 on 5 s, S1 off 20 s', ['M1.park stuck closed']).is('M1')).toBe('works');
  });
});
