import type { Law } from '../circuit/element.ts';
import { blend, resistive, selfHeating } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import type { State } from '../circuit/scene.ts';
import { accessOf } from './shared/access.ts';
import { inrushOf, inrushRate, steady } from './shared/inrush.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { limits, ratedVolts } from './shared/loadParameters.ts';
import { oneTwoLoad } from './shared/oneTwoLoad.ts';
import { practice } from './shared/sources.ts';

type Held = {
  readonly resistance: number | undefined;
  readonly power: number | undefined;
  readonly draws: number | undefined;
  readonly at: number;
  readonly ptc: boolean;
  readonly 'weak-below': number;
  readonly 'dead-below': number;
};

/** A PTC element takes about three times its steady current for the first seconds, and hardly more at higher volts once it is hot (estimate). */
const ptcCold = 1 / 3;
const ptcPower = 0.2;
const warm_s = 8;
const cool_s = 60;

/** Anything that turns current into heat: rear window, choke, flame start, oxygen sensor, fuel filter. */
export const heater = definePart({
  kind: 'heater',
  title: 'heater',
  about: 'a heating element, by resistance, power or current; ptc: yes for one that limits itself',
  letter: 'E',
  serves: 'body',
  parameters: {
    resistance: { as: 'quantity', dimension: 'resistance', about: 'its resistance when hot', min: 1e-3, max: 1e6 },
    power: { as: 'quantity', dimension: 'power', about: 'its power at rated volts', min: 0.01, max: 1e5 },
    draws: { as: 'quantity', dimension: 'current', about: 'its current at rated volts', min: 1e-4, max: 2000 },
    at: ratedVolts,
    ptc: {
      as: 'flag',
      about: 'limits itself: its resistance rises steeply with heat',
      default: false,
      source: 'common practice, no source',
    },
    ...limits(0.8, 0.3, 'estimate: 64 % of the heat is left at 80 % of the volts'),
  },
  ...oneTwoLoad<Held>({
    symbol: 'heater',
    takes: (params, at) => lawOf(params, at.state),
    label: (params) => `${figure(power(params))} W`,
  }),
  varies: ['state'],
  initial: () => steady,
  faults: (part: Part<Held>) =>
    loadFaults(
      part.id,
      '',
      'the heating element',
      (part.params.at * part.params.at) / power(part.params),
      { open: 1.5, resistance: 0.5, comesAndGoes: 0.5, shorted: 0.1 },
      practice,
    ),
  access: () => accessOf(5, 'at the heater', undefined, 40),
  timing: {
    rates: ({ params }, _at, read) => ({
      inrush: inrushRate((Math.abs(read.amperes('')) * params.at) / (0.01 * power(params)), warm_s, cool_s),
    }),
  },
});

/** Without any figure: 120 W, the smaller of the rear-window heaters (a load list of a repair text, 13 to 28 A; the choice is an estimate). */
const unsaid_W = 120;

/** W at rated volts; the resistance counts first, then the power, then the current. */
function power({ resistance, power: watt, draws, at }: Held): number {
  if (resistance !== undefined) return (at * at) / resistance;
  return watt ?? (draws === undefined ? unsaid_W : draws * at);
}

function lawOf(params: Held, state: State): Law {
  const watt = power(params);
  const hot = (params.at * params.at) / watt;
  if (!params.ptc) return resistive(hot);
  return blend(selfHeating(watt, params.at, ptcCold, ptcPower), resistive(hot * ptcCold), inrushOf(state));
}

const figure = (amount: number) => Number(amount.toPrecision(2));
