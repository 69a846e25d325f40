import type { Element } from '../circuit/element.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { ratedVolts, resistance, share } from './shared/loadParameters.ts';
import { pulledState } from './shared/pulled.ts';
import { estimate, practice } from './shared/sources.ts';

type Held = {
  readonly pull: number;
  readonly hold: number;
  readonly at: number;
  readonly 'pull-in': number;
  readonly 'drop-out': number;
  readonly 'cuts-pull': boolean;
};

/** Fuel stop solenoid with a strong winding that pulls and a weak one that holds. Held without the pull, it stays where it is. */
export const stopSolenoid = definePart({
  kind: 'stop-solenoid',
  title: 'stop solenoid, pull and hold',
  about: 'P pulls for a moment with many amperes, H holds; dead pull winding: never in; dead hold winding: falls back out',
  letter: 'Y',
  load: true,
  serves: 'engine',
  parameters: {
    pull: resistance('resistance of the pull winding', 0.33, "two makers' service texts (secondary): 0.33 Ω; 0.2 to 0.3 Ω"),
    hold: resistance('resistance of the hold winding', 12.2, "a maker's service text (secondary)"),
    at: ratedVolts,
    'pull-in': share('the pull winding moves it at this share of rated volts', 0.6, 'estimate: as a starter solenoid, 8 V with margin'),
    'drop-out': share('it falls out under this share of rated volts at either winding', 0.25, estimate),
    'cuts-pull': {
      as: 'flag',
      about: 'a contact inside cuts the pull winding once it is in',
      default: true,
      source: 'common practice, no source',
    },
  },
  terminals: () => [
    { name: 'P', about: 'pull winding' },
    { name: 'H', about: 'hold winding' },
    { name: '31', about: 'ground' },
  ],
  varies: ['state'],
  elements: ({ params }, at): readonly Element[] => [
    { id: 'pull', from: 'P', to: '31', ohm: at.state['pulled'] === true && params['cuts-pull'] ? Number.POSITIVE_INFINITY : params.pull },
    { id: 'hold', from: 'H', to: '31', ohm: params.hold },
  ],
  initial: () => ({ pulled: false }),
  settle: ({ params }, at, read) => {
    // By current, so that a broken winding under full volts pulls nothing.
    const pull_V = Math.abs(read.amperes('pull')) * params.pull;
    const hold_V = Math.abs(read.amperes('hold')) * params.hold;
    const volts = at.state['pulled'] === true ? Math.max(pull_V, hold_V) : pull_V;
    return pulledState(at.state, volts, params['pull-in'] * params.at, params['drop-out'] * params.at);
  },
  judge: ({ params }, at, read) => {
    const amperes = Math.abs(read.amperes('hold')) + Math.abs(read.amperes('pull'));
    const volts = Math.max(Math.abs(read.across('H', '31')), Math.abs(read.across('P', '31')));
    const held = Math.max(Math.abs(read.amperes('hold')) * params.hold, Math.abs(read.amperes('pull')) * params.pull);
    const firm = held >= 2 * params['drop-out'] * params.at;
    return { verdict: at.state['pulled'] !== true ? 'dead' : firm ? 'works' : 'weak', volts, amperes };
  },
  loadEnds: () => ['H', '31'],
  poles: ({ params }) => [
    { id: 'pull', from: 'P', to: '31', symbol: 'solenoid', label: `${params.pull} Ω` },
    { id: 'hold', from: 'H', to: '31', symbol: 'solenoid', label: `${params.hold} Ω` },
  ],
  faults: (part: Part<Held>) =>
    (['pull', 'hold'] as const).flatMap((winding) =>
      loadFaults(
        `${part.id}.${winding}`,
        winding,
        `the ${winding} winding`,
        part.params[winding],
        { open: 1.2, resistance: 0.6, comesAndGoes: 0.4, shorted: 0.1 },
        practice,
      ),
    ),
  access: () => accessOf(10, 'at the injection pump', 'the pull winding bears seconds only; the plunger may trap fingers', 90),
  timing: { delay: () => 0.1 },
});
