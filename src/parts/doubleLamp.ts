import * as v from 'valibot';
import type { Reading } from '../circuit/element.ts';
import { definePart, type Judged, type Part } from '../circuit/part.ts';
import type { State } from '../circuit/scene.ts';
import { writtenQuantity } from '../circuit/written.ts';
import { accessOf } from './shared/access.ts';
import { filamentRate, lampLaw } from './shared/filamentModel.ts';
import { steady } from './shared/inrush.ts';
import { judgedByLaw } from './shared/lawVerdict.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { limits, ratedVolts } from './shared/loadParameters.ts';
import { practice } from './shared/sources.ts';

type Held = {
  readonly terminals: readonly string[];
  readonly powers: readonly number[];
  readonly at: number;
  readonly 'weak-below': number;
  readonly 'dead-below': number;
};

const terminalName = v.pipe(v.string(), v.regex(/^[^\s.]+$/, 'a terminal is one word without a point'));

/**
 * A lamp with two filaments and one return: headlamp (56a, 56b), stop and tail (54, 58). Each filament is a piece of its own
 * to the common terminal, so that with the ground lost the current finds its way through one filament and back
 * through the other.
 */
export const doubleLamp = definePart({
  kind: 'double-lamp',
  title: 'lamp with two filaments',
  about: 'two filaments with one return, such as main and dipped beam or stop and tail',
  letter: 'E',
  driver: { works: 'lights up', weak: 'glows only dimly', dead: 'stays dark' },
  parameters: {
    terminals: {
      as: 'form',
      about: 'names of the first and second filament and of the common return',
      schema: v.pipe(
        v.array(terminalName),
        v.length(3, 'three names are needed: first filament, second filament, return'),
        v.check((names) => new Set(names).size === names.length, 'the three names must differ'),
      ),
      default: ['56a', '56b', '31'],
      written: '[56a, 56b, 31]',
      source: 'DIN 72552 (secondary copies of its list)',
    },
    powers: {
      as: 'form',
      about: 'rated powers of the two filaments',
      schema: v.pipe(v.array(writtenQuantity('power', { min: 0.05, max: 1000 })), v.length(2, 'two powers are needed')),
      default: [60, 55],
      written: '[60 W, 55 W]',
      source: 'from memory: 60/55 W of the common two-filament headlamp',
    },
    at: ratedVolts,
    ...limits(0.8, 0.3, 'estimate: 47 % of the light is left at 80 % of the volts'),
  },
  load: true,
  serves: 'light',
  terminals: ({ params }) =>
    namesOf(params).map((name, k) => ({ name, about: ['first filament', 'second filament', 'common return'][k]! })),
  varies: ['state'],
  elements: ({ params }, at) => {
    const [, , common] = namesOf(params);
    return filamentsOf(params).map(({ name, power }) => ({ id: name, from: name, to: common, law: lampLaw(power, params.at, at.state) }));
  },
  initial: () => steady,
  judge: (part, at, read) => judgedByBrighter(part, at.state, read),
  loadEnds: ({ params }) => [namesOf(params)[0], namesOf(params)[2]],
  poles: ({ params }) => {
    const [, , common] = namesOf(params);
    return filamentsOf(params).map(({ name, power }) => ({ id: name, from: name, to: common, symbol: 'lamp', label: `${power} W` }));
  },
  faults: (part: Part<Held>) => {
    const [, , common] = namesOf(part.params);
    const { powers, at } = part.params;
    return [
      ...filamentsOf(part.params).flatMap(({ name, power }) =>
        loadFaults(
          `${part.id}.${name}`,
          name,
          `filament ${name}`,
          (at * at) / power,
          { open: 4, resistance: 0.3, comesAndGoes: 0.3, shorted: 0.1 },
          practice,
        ),
      ),
      {
        subject: part.id,
        words: 'filaments joined',
        text: 'a broken filament lies across both supports, so that either feed lights what is left',
        weight: 0.2,
        source: practice,
        changes: () => [
          { do: 'bridge', from: `${part.id}.${namesOf(part.params)[0]}`, to: `${part.id}.${namesOf(part.params)[1]}`, ohm: 0.1 },
        ],
      },
      {
        subject: part.id,
        words: 'turned round',
        text: `the lamp is fitted the wrong way round: ${common} is right, the two feeds are exchanged`,
        weight: 0.2,
        source: practice,
        excludes: `${part.id} turned round`,
        changes: () => [{ do: 'params', patch: { powers: [powers[1], powers[0]] } }],
      },
    ];
  },
  access: () => accessOf(3, 'at the lamp', undefined, 5),
  timing: {
    rates: ({ params }, _at, read) => {
      const most = Math.max(...filamentsOf(params).map(({ name }) => Math.abs(read.amperes(name))));
      return { inrush: filamentRate(most) };
    },
  },
});

function namesOf(params: Pick<Held, 'terminals'>): readonly [string, string, string] {
  const [first = '56a', second = '56b', common = '31'] = params.terminals;
  return [first, second, common];
}

function filamentsOf(params: Pick<Held, 'terminals' | 'powers'>): readonly { readonly name: string; readonly power: number }[] {
  const [first, second] = namesOf(params);
  const [one = 60, two = 55] = params.powers;
  return [
    { name: first, power: one },
    { name: second, power: two },
  ];
}

/** The brighter filament speaks for the lamp; but one that stays dark with full volts on its own terminal makes it weak. */
function judgedByBrighter({ params }: Part<Held>, state: State, read: Reading): Judged {
  const [, , common] = namesOf(params);
  const all = filamentsOf(params).map(({ name, power }) => {
    const volts = read.across(name, common);
    const judged = judgedByLaw(
      lampLaw(power, params.at, state),
      volts,
      read.amperes(name),
      params.at,
      params['weak-below'],
      params['dead-below'],
    );
    return { ...judged, light: judged.volts * judged.amperes };
  });
  const { light: _, ...best } = all.reduce((a, b) => (b.light > a.light ? b : a));
  const darkUnderVolts = all.some((f) => f.verdict === 'dead' && f.volts >= params['weak-below'] * params.at);
  return best.verdict === 'works' && darkUnderVolts ? { ...best, verdict: 'weak' } : best;
}
