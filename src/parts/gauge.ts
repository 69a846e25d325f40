import { resistive } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { judgedByLaw } from './shared/lawVerdict.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { limits, ratedVolts, resistance, share } from './shared/loadParameters.ts';
import { practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

type Held = {
  readonly resistance: number;
  readonly draws: number | undefined;
  readonly at: number;
  readonly 'moves-from': number;
  readonly 'weak-below': number;
  readonly 'dead-below': number;
};

/**
 * A gauge in series with its sender, or (with `draws`) a set of instruments between feed and ground. One in series
 * moves as soon as current flows, and how far it moves is the sender's affair: so it is judged by current alone.
 */
export const gauge = definePart({
  kind: 'gauge',
  title: 'gauge',
  about: 'moves once it is fed; in series with its sender, or with `draws` a set of instruments between feed and ground',
  letter: 'P',
  driver: { works: 'shows something', weak: 'reads low', dead: 'does not move' },
  load: true,
  serves: 'instruments',
  parameters: {
    resistance: resistance('its resistance', 60, 'estimate: bimetal gauge of 0.1 to 0.2 A'),
    draws: {
      as: 'quantity',
      dimension: 'current',
      about: 'current at rated volts, for a set of instruments by itself',
      min: 1e-4,
      max: 50,
    },
    at: ratedVolts,
    'moves-from': share('moves from this share of the current that it would take alone at rated volts', 0.03, 'estimate'),
    ...limits(0.7, 0.4),
  },
  terminals: () => oneAndTwo,
  elements: ({ params }) => [{ id: '', from: '1', to: '2', ohm: ohmOf(params) }],
  judge: ({ params }, _at, read) => {
    const [volts, amperes] = [read.across('1', '2'), read.amperes('')];
    if (params.draws !== undefined)
      return judgedByLaw(resistive(ohmOf(params)), volts, amperes, params.at, params['weak-below'], params['dead-below']);
    const moves = Math.abs(amperes) >= (params['moves-from'] * params.at) / params.resistance;
    return { verdict: moves ? 'works' : 'dead', volts: Math.abs(volts), amperes: Math.abs(amperes) };
  },
  loadEnds: () => ['1', '2'],
  poles: () => [{ id: '', from: '1', to: '2', symbol: 'gauge' }],
  faults: (part: Part<Held>) =>
    loadFaults(part.id, '', 'the gauge', ohmOf(part.params), { open: 1, resistance: 0.5, comesAndGoes: 0.5, shorted: 0.1 }, practice),
  access: () => accessOf(20, 'in the instrument panel', undefined, 60),
});

function ohmOf({ draws, at, resistance: ohm }: Held): number {
  return draws === undefined ? ohm : at / draws;
}
