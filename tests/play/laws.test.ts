import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { faultOf } from '../../src/faults/fault.ts';
import { faultModes } from '../../src/faults/faultModes.ts';
import { readStory } from '../../src/play/story.ts';
import { amperesThrough } from '../../src/solve/operatingPoint.ts';
import { vehicle } from '../circuits/vehicle.ts';
import { smallVehicle } from './benches.ts';
import { startsRunsStops } from './stories.ts';
import { told } from './told.ts';

const seed = 20261125;
const circuit = smallVehicle('2 W');

/** Steps that mean something in the small vehicle. */
const step = fc.oneof(
  fc.constantFrom('OFF', 'ON', 'START', 'release', 'jolt', 'key out', 'wait', 'ease to 70°', 'unplug H1', 'plug H1', 'swap S1'),
  fc.integer({ min: -5, max: 95 }).map((angle) => `ease to ${Math.max(0, Math.min(90, angle))}°`),
);
const held = fc.tuple(step, fc.integer({ min: 0, max: 30 })).map(([what, tenths]) => `${what} ${tenths / 10} s`);
const story = fc.array(held, { minLength: 1, maxLength: 8 });
const faults = fc.subarray(
  ['S1.30-50 comes and goes 40 %', 'S1.30-15 comes and goes 20 %', 'G1 flat 40 %', 'S1 spring weak 12°', 'G2.D+ short to ground'],
  {
    maxLength: 2,
  },
);

/** Everything about a played story that may be told again; the solved instants by their volts. */
const tale = (of: ReturnType<typeof told>) => ({
  events: of.played.events,
  times: of.played.samples.map((s) => [s.t, s.speed, s.key?.angle, s.at.nodeVolts.slice(0, 5)]),
  end: { ...of.played.end, states: [...of.played.end.states] },
});

/** Plain data of a circuit, for seeing whether it is as it was. */
const plain = () =>
  JSON.stringify([...circuit.parts.values()].map((p) => [p.id, p.params, p.isLoad]).concat(circuit.attached.map(([a, b]) => [a, b, ''])));

describe('laws of every play', () => {
  test('[P5] no story changes the circuit that it plays', () => {
    const before = plain();
    fc.assert(
      fc.property(story, faults, (steps, put) => {
        told(circuit, steps.join(', '), put);
        expect(plain()).toBe(before);
      }),
      { seed, numRuns: 25 },
    );
  });

  test('[P5] the same seed plays the same, to the last digit', () => {
    fc.assert(
      fc.property(story, faults, fc.integer({ min: 0, max: 1e6 }), (steps, put, chance) => {
        const once = told(circuit, steps.join(', '), put, chance);
        expect(tale(told(circuit, steps.join(', '), put, chance))).toEqual(tale(once));
      }),
      { seed, numRuns: 25 },
    );
  });

  test('a story cut in two and continued ends the same', () => {
    fc.assert(
      fc.property(story, story, faults, fc.integer({ min: 0, max: 1e6 }), (first, second, put, chance) => {
        const whole = told(circuit, [...first, ...second].join(', '), put, chance);
        const begun = told(circuit, first.join(', '), put, chance);
        if (begun.played.chatters) return;
        const ended = told(circuit, second.join(', '), put, begun.played.end);
        expect({ ...ended.played.end, states: [...ended.played.end.states] }).toEqual({
          ...whole.played.end,
          states: [...whole.played.end.states],
        });
        expect([...begun.played.events, ...ended.played.events]).toEqual(whole.played.events);
      }),
      { seed, numRuns: 25 },
    );
  });

  test('a wait cut in two comes to the same within what the play says of itself', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99 }), (share) => {
        const whole = told(circuit, 'ON 1 s, START 1.5 s, release 100 s');
        const cut = told(circuit, `ON 1 s, START 1.5 s, release ${share} s, wait ${100 - share} s`);
        const off = Math.abs(whole.charge() - cut.charge());
        expect(off).toBeLessThanOrEqual(whole.played.bound + cut.played.bound + 1e-9);
        expect(cut.engine()).toBe(whole.engine());
      }),
      { seed, numRuns: 10 },
    );
  });

  test('charge taken from the battery is the integral of its current', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('ON 30 s', 'ON 1 s, START 1.5 s', 'ON 20 s, ease to 70° 10 s, START 0.8 s', 'key out 1 h, ON 2 h'),
        (line) => {
          const { played, charge } = told(circuit, line);
          let coulombs = 0;
          for (const [k, s] of played.samples.entries()) {
            const next = played.samples[k + 1];
            if (next) coulombs += ((amperesThrough(s.at, 'G1') + amperesThrough(next.at, 'G1')) / 2) * (next.t - s.t);
          }
          const lost = (0.04 / (30 * 86_400)) * played.end.t; // its own discharge: 4 % a month
          const taken = (1 - charge() - lost) * 45 * 3600;
          expect(Math.abs(taken - coulombs)).toBeLessThan(0.01 * coulombs + 0.01);
        },
      ),
      { seed, numRuns: 4 },
    );
  });

  test('time never runs back, and events lie within the story', () => {
    fc.assert(
      fc.property(story, faults, (steps, put) => {
        const { played } = told(circuit, steps.join(', '), put);
        const times = played.samples.map((s) => s.t);
        expect(times.every((t, k) => k === 0 || t >= times[k - 1]!)).toBe(true);
        expect(played.events.every((e) => e.t >= 0 && e.t <= played.end.t)).toBe(true);
        expect(played.samples.every((s) => s.at.residual <= 1e-9)).toBe(true);
      }),
      { seed, numRuns: 25 },
    );
  });
});

describe('without faults no load chatters in any circuit of the library', () => {
  test.each(startsRunsStops)('$name: $stop', ({ name, start, stop }) => {
    const { played } = told(vehicle(name).circuit, `${start}, wait 3 s, ${stop} 3 s, key out 1 h`);
    expect(played.chatters).toBeUndefined();
    expect(played.samples.flatMap((s) => s.loads.filter((l) => l.verdict === 'chatters'))).toEqual([]);
  });
});

describe('any fault of any vehicle', () => {
  const vehicles = [...new Set(startsRunsStops.map((s) => s.name))].map((name) => ({ name, ...vehicle(name) }));
  test('a story with it in comes to an end, every instant solved to 1e-9 of its largest current', () => {
    fc.assert(
      fc.property(fc.constantFrom(...vehicles), fc.nat(), ({ name, circuit: of }, nth) => {
        const modes = faultModes(of);
        const { part, mode } = modes[nth % modes.length]!;
        const { start, stop } = startsRunsStops.find((s) => s.name === name)!;
        const { played } = told(of, `${start}, wait 1 s, ${stop} 1 s`, [faultOf(part, mode).phrase]);
        expect(played.chatters !== undefined || played.steps.length > 0).toBe(true);
        for (const s of played.samples) expect(s.at.residual).toBeLessThanOrEqual(1e-9);
      }),
      { seed, numRuns: 25 },
    );
  });
});

test('the generator makes stories that can be read', () => {
  fc.assert(
    fc.property(story, (steps) => readStory(steps.join(', '), circuit, 'story').ok),
    { seed, numRuns: 50 },
  );
});
