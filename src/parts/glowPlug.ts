import type { Law } from '../circuit/element.ts';
import { blend, resistive, selfHeating } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import type { State } from '../circuit/scene.ts';
import { accessOf } from './shared/access.ts';
import { inrushOf, inrushRate, steady } from './shared/inrush.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { limits, ratedVolts, resistance, share, time } from './shared/loadParameters.ts';
import { oneTwoLoad } from './shared/oneTwoLoad.ts';
import { practice } from './shared/sources.ts';

type Held = {
  readonly resistance: number;
  readonly cold: number;
  readonly heats: number;
  readonly at: number;
  readonly 'weak-below': number;
  readonly 'dead-below': number;
};

/** Exponent of current over volts of a self-regulating plug (estimate: between a plain resistance, 1, and a filament, 0.55). */
const rise = 0.75;
const cool_s = 30;

/** A glow plug in a diesel cylinder head, grounded through its own thread. */
export const glowPlug = definePart({
  kind: 'glow-plug',
  title: 'glow plug',
  about: 'draws about twice its steady current for the first seconds; one plug open is half noticed, all open is no cold start',
  letter: 'E',
  serves: 'starting',
  parameters: {
    resistance: resistance('its resistance when hot', 1.1, 'handbook copies (secondary): 10 to 12 A steady at 12 V'),
    cold: share('cold over hot resistance', 0.45, 'from memory: it starts with 1.5 to 2.5 times its steady current', 0.99),
    heats: time('time to its steady current', 8, 'from memory: 5 to 10 s'),
    at: ratedVolts,
    ...limits(0.8, 0.3),
  },
  ...oneTwoLoad<Held>({ symbol: 'glow-plug', takes: (params, at) => lawOf(params, at.state) }),
  varies: ['state'],
  initial: () => steady,
  faults: (part: Part<Held>) =>
    loadFaults(
      part.id,
      '',
      'the glow plug',
      part.params.resistance,
      { open: 3, resistance: 0.5, comesAndGoes: 0.2, shorted: 0.3 },
      practice,
    ),
  access: () => accessOf(6, 'on the cylinder head; its bus bar comes off first', 'hot after glowing', 15),
  timing: {
    rates: ({ params }, _at, read) => ({
      inrush: inrushRate(Math.abs(read.amperes('')) / 0.5, Math.max(0.1, params.heats), cool_s),
    }),
  },
});

function lawOf({ resistance: hot, cold, at }: Held, state: State): Law {
  return blend(selfHeating((at * at) / hot, at, Math.max(0.05, cold), rise), resistive(hot * cold), inrushOf(state));
}
