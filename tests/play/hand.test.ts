import { describe, expect, test } from 'vitest';
import { vehicle } from '../circuits/vehicle.ts';
import { bench } from './benches.ts';
import { told } from './told.ts';

const van = vehicle('light-van').circuit;

/** A key switch and a lamp on each of its outputs; invented. */
const lamps = bench(
  `S1: { kind: key-switch, positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 60° }, START: { at: 90°, springs-to: ON } }, contacts: { 30-15: [45°..100°], 30-50: [80°..100°], 30-X: [20°..30°] }, lost-motion: 0° }
   E1: { kind: lamp, power: 5 W }
   E2: { kind: lamp, power: 5 W }
   E3: { kind: lamp, power: 5 W }`,
  'G1.+ -> S1.30\nS1.15 -> E1.1\nE1.2 -> ground\nS1.50 -> E2.1\nE2.2 -> ground\nS1.X -> E3.1\nE3.2 -> ground',
);

/** Stretches in which a load is not dead, s. */
function alive(story: string, load: string, ...faults: string[]): readonly (readonly [number, number])[] {
  const { played } = told(lamps, story, faults);
  const found: [number, number][] = [];
  let since: number | undefined;
  for (const s of played.samples) {
    const on = s.loads.find((l) => l.id === load)!.verdict !== 'dead';
    if (on && since === undefined) since = s.t;
    if (!on && since !== undefined) {
      found.push([since, s.t]);
      since = undefined;
    }
  }
  return since === undefined ? found : [...found, [since, played.end.t]];
}

describe('turning', () => {
  // SAE J259 gives a key 0.1 to 0.5 s for its travel (secondary).
  test('takes a hand’s time through the whole travel', () => {
    const { travel } = told(lamps, 'OFF, START 1 s').played;
    const [leaves, arrives] = [travel.find((c) => c.angle === 0)!, travel.find((c) => c.angle === 90)!];
    expect(arrives.t - leaves.t).toBeGreaterThan(0.1);
    expect(arrives.t - leaves.t).toBeLessThan(0.8);
  });
  test('passes what lies between two detents: a contact that closes there alone closes for that long', () => {
    const [[from, to] = [0, 0], ...more] = alive('ON 1 s', 'E3');
    expect(more).toEqual([]);
    expect(to - from).toBeCloseTo(10 / 150, 2); // 10° of travel at 150° a second
    const [[slowly, end] = [0, 0]] = alive('ease to ON 1 s', 'E3');
    expect(end - slowly).toBeCloseTo(10 / 15, 1);
  });
  test('stops anywhere, and closes what is closed there', () => {
    const { is, at } = told(lamps, 'ease to 70° 2 s');
    expect(at(100).key?.angle).toBe(70);
    expect([is('E1'), is('E2')]).toEqual(['works', 'dead']);
  });
  test('is angle against time: the corners of the travel, with nothing in between', () => {
    const { travel } = told(lamps, 'ON 1 s, START 1 s, release 1 s').played;
    expect(travel.every((c, k) => k === 0 || c.t >= travel[k - 1]!.t)).toBe(true);
    expect(travel.at(-1)?.angle).toBe(60);
  });
});

describe('letting go', () => {
  test('the spring takes the key from START to ON', () => {
    const { at, times } = told(lamps, 'START 1 s, release 1 s');
    expect(at(100).key?.angle).toBe(60);
    expect(at(100).key?.came).toBe('back');
    expect(times('', 'key springs back to ON')).toHaveLength(1);
  });
  test('a weak spring stops short, and its angle is said', () => {
    const { at, times, is } = told(lamps, 'START 1 s, release 1 s', ['S1 spring weak 22°']);
    expect(at(100).key?.angle).toBe(82);
    expect(times('', 'key stops short at 82°')).toHaveLength(1);
    expect(is('E2')).toBe('works'); // START contact still closed: the starter stays in
  });
  test('in a detent without a spring nothing moves', () => {
    expect(told(lamps, 'ON 1 s, release 1 s').at(100).key?.angle).toBe(60);
  });
});

describe('lock and linkage', () => {
  test('lost motion: the contact closes as many degrees later on the way up, and at once on the way back', () => {
    const closes = (...faults: string[]) => alive('ease to START 1 s', 'E1', ...faults)[0]![0];
    expect((closes('S1 lost motion 12°') - closes()) * 15).toBeCloseTo(12, 0);
    const opens = (...faults: string[]) => alive('ON 1 s, ease to OFF 1 s', 'E1', ...faults)[0]![1];
    expect((opens('S1 lost motion 12°') - opens()) * 15).toBeCloseTo(0, 0);
  });
  test('a worn detent lets the switch sag: the contact that reached just to it opens, and held a little further it closes', () => {
    const edge = ['S1.30-15 shifted 12°', 'S1 detent worn at ON 10°'];
    expect(told(lamps, 'ON 1 s', edge).is('E1')).toBe('dead');
    expect(told(lamps, 'ease to 68° 1 s', edge).is('E1')).toBe('works');
  });
  test('a jolt shakes a key that stands between two detents into the nearer one', () => {
    const { at, times } = told(lamps, 'ease to 70° 1 s, jolt 1 s');
    expect(at(100).key?.angle).toBe(60);
    expect(times('', 'jolt')).toHaveLength(1);
  });
  test('a jolt makes what comes and goes do so: over 100 jolts about as often as the fault says', () => {
    const jolts = Array.from({ length: 100 }, () => 'jolt 0.1 s').join(', ');
    const { played } = told(lamps, `ON 1 s, ${jolts}`, ['S1.30-15 comes and goes 30 %'], 7);
    const dead = Array.from({ length: 100 }, (_, k) => played.samples.filter((s) => s.t <= 1.4 + 0.1 * k + 0.05).at(-1)!).filter(
      (s) => s.loads.find((l) => l.id === 'E1')!.verdict === 'dead',
    ).length;
    // Binomial: 30 with a standard deviation of 4.6; three of them to either side.
    expect(dead).toBeGreaterThan(16);
    expect(dead).toBeLessThan(44);
  });
});

describe('start-repeat lock', () => {
  const saloon = vehicle('saloon').circuit;
  test('bars a second START until the key has been back', () => {
    const barred = told(saloon, 'ON 1 s, START 0.3 s, release 3 s, START 1 s');
    expect(barred.at(100).key?.angle).toBe(70);
    expect(barred.times('', 'start-repeat lock: back to 0 first')).toHaveLength(1);
    expect(barred.times('M1', 'engaged')).toHaveLength(1);
  });
  test('after a turn back START is free again', () => {
    expect(told(saloon, 'ON 1 s, START 0.3 s, release 3 s, 0 1 s, ON 1 s, START 1 s').times('M1', 'engaged')).toHaveLength(2);
  });
});

describe('the other hand', () => {
  test('switches, plugs, fuses, bridges and known good parts, in and out again', () => {
    const steps = 'ON 1 s, pull F5 1 s, put back F5 1 s, bridge S1.30 S1.50 1 s, unbridge S1.30 S1.50 1 s';
    const { is, times } = told(van, `S5 on, ${steps}`);
    const begins = 0.37; // the key's way to ON
    expect([0.5, 1.5, 2.5].map((t) => is('M2', t + begins))).toEqual(['works', 'dead', 'works']);
    expect(times('M1', 'engaged')).toHaveLength(1);
    expect(times('M1', 'no longer engaged')).toHaveLength(1);
  });
  test('a part put in that is known to be good has no fault and nothing of the old one’s wear', () => {
    const { is } = told(van, 'ON 1 s, swap S1 1 s', ['S1.30-15 open']);
    expect([is('T1', 1), is('T1')]).toEqual(['dead', 'works']);
    const fresh = told(van, 'ON 5 h, swap G1 1 s', ['G1 flat 20 %']);
    expect(fresh.charge()).toBeGreaterThan(0.99);
  });
  test('the key is taken out where the lock lets it out', () => {
    const { at } = told(van, 'ON 1 s, key out 1 s');
    expect(at(100).key).toMatchObject({ angle: 0, in: false });
  });
});
