import * as v from 'valibot';
import type { Element, Reading } from '../circuit/element.ts';
import { definePart, type Judged, type Part } from '../circuit/part.ts';
import type { State } from '../circuit/scene.ts';
import { writtenQuantity } from '../circuit/written.ts';
import { accessOf } from './shared/access.ts';
import { fedOrNot, inrushRate, steady } from './shared/inrush.ts';
import { judgedByLaw } from './shared/lawVerdict.ts';
import { fanTorque, type MotorHeld, motorFaults, motorLaw, motorParameters, runDown_s, spinUp_s } from './shared/motorModel.ts';
import { fromMemory, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

type Held = MotorHeld & { readonly speeds: Readonly<Record<string, number>> | undefined };

/**
 * Heater blower. With `speeds` it has one terminal for each, lowest first, and the resistor pack in its housing: the
 * pack is a string, so that a feed at a lower speed passes all the pieces above it, and a break in it leaves the top
 * speed alone alive.
 */
export const blower = definePart({
  kind: 'blower',
  title: 'blower',
  about: 'heater blower; with `speeds` a resistor pack with one terminal for each speed, and 2',
  letter: 'M',
  driver: { works: 'blows', weak: 'blows weakly', dead: 'does nothing' },
  load: true,
  serves: 'body',
  parameters: {
    ...motorParameters(10, 'load list of a repair text (secondary): 10 to 14 A at high speed'),
    speeds: {
      as: 'form',
      about:
        'terminals of the speeds with the resistance of the pack in front of the motor; one has 0 Ω; without it the terminals are 1 and 2',
      schema: v.pipe(
        v.record(
          v.pipe(v.string(), v.regex(/^[^\s.~]+$/, 'a terminal is one word without a point')),
          writtenQuantity('resistance', { min: 0, max: 100 }),
        ),
        v.check((speeds) => Object.values(speeds).includes(0), 'one of the speeds needs 0 Ω: full speed, past the pack'),
        v.check((speeds) => new Set(Object.values(speeds)).size === Object.keys(speeds).length, 'two speeds have the same resistance'),
        v.check((speeds) => !Object.hasOwn(speeds, '2'), 'the name 2 is taken: it is the return'),
      ),
      written: '{ L: 1.6 Ω, M: 0.6 Ω, H: 0 Ω }',
      source: fromMemory,
    },
  },
  terminals: ({ params }) =>
    params.speeds === undefined
      ? oneAndTwo
      : [...steps(params.speeds).map(({ name }) => ({ name, about: `feed for speed ${name}` })), { name: '2', about: 'return' }],
  varies: ['state'],
  elements: ({ params }: Part<Held>, at): readonly Element[] => {
    const law = motorLaw(params.draws, params.at, params['stall-share'], fanTorque, at.state);
    return [...packOf(params.speeds), { id: 'motor', from: top(params), to: '2', law }];
  },
  initial: () => steady,
  judge: (part, at, read) => judgedBySpeed(part, at.state, read),
  loadEnds: ({ params }) => [top(params), '2'],
  poles: ({ params }) => [
    ...packOf(params.speeds).map(({ id, from, to }) => ({ id, from, to, symbol: 'resistor' })),
    { id: 'motor', from: top(params), to: '2', symbol: 'blower', label: `${params.draws} A` },
  ],
  faults: (part: Part<Held>) => [
    ...motorFaults(part.id, 'motor', 'the blower', part.params),
    ...packOf(part.params.speeds).map(({ id }) => ({
      subject: `${part.id}.${id}`,
      words: 'open',
      text: `the piece ${id} of the resistor pack, or its overheating link, is open`,
      weight: 2,
      source: practice,
      changes: () => [{ do: 'series', element: id, ohm: Number.POSITIVE_INFINITY } as const],
    })),
  ],
  access: () => accessOf(20, 'behind the glove box or under the bonnet', undefined, 80),
  timing: {
    rates: (part, _at, read) => ({
      inrush: inrushRate(fedOrNot(Math.abs(read.across(top(part.params), '2')) > 0.15 * part.params.at), spinUp_s, runDown_s),
    }),
  },
});

/** Speeds from the slowest to full, with the resistance in front of the motor. */
function steps(speeds: Readonly<Record<string, number>>): readonly { readonly name: string; readonly ohm: number }[] {
  return Object.entries(speeds)
    .map(([name, ohm]) => ({ name, ohm }))
    .sort((a, b) => b.ohm - a.ohm);
}

/** Pieces of the pack between neighbouring speeds: `L-M`, `M-H`. */
function packOf(speeds: Readonly<Record<string, number>> | undefined): readonly { id: string; from: string; to: string; ohm: number }[] {
  const all = steps(speeds ?? {});
  return all.slice(1).map(({ name, ohm }, k) => ({ id: `${all[k]!.name}-${name}`, from: all[k]!.name, to: name, ohm: all[k]!.ohm - ohm }));
}

/** The motor's own feed terminal: full speed. */
function top(params: Held): string {
  return params.speeds === undefined ? '1' : (steps(params.speeds).at(-1)?.name ?? '1');
}

/**
 * A low speed is not a weak blower: the motor's volts are counted against what this speed leaves it at rated volts,
 * found from the terminal with the most volts, which is the one that is fed.
 */
function judgedBySpeed({ params }: Part<Held>, state: State, read: Reading): Judged {
  const law = motorLaw(params.draws, params.at, params['stall-share'], fanTorque, steady);
  const feeds = steps(params.speeds ?? {}).map(({ name, ohm }) => ({ ohm, volts: Math.abs(read.across(name, '2')) }));
  const fed = feeds.reduce((a, b) => (b.volts > a.volts * 1.001 ? b : a), feeds[0] ?? { ohm: 0, volts: 0 });
  let expected = params.at;
  if (fed.ohm > 0) {
    let low = 0;
    for (let halving = 0; halving < 20; halving++) {
      const middle = (low + expected) / 2;
      if (middle + fed.ohm * law(middle).ampere < params.at) low = middle;
      else expected = middle;
    }
  }
  const now = motorLaw(params.draws, params.at, params['stall-share'], fanTorque, state);
  return judgedByLaw(now, read.across(top(params), '2'), read.amperes('motor'), expected, params['weak-below'], params['dead-below']);
}
