import { resistive } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { ownVolts, withExcess } from './shared/lawVerdict.ts';
import { loadFaults, shortedTurns } from './shared/loadFaults.ts';
import { ratedVolts, resistance, share } from './shared/loadParameters.ts';
import { pulledState } from './shared/pulled.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

type Held = { readonly resistance: number; readonly at: number; readonly 'pull-in': number; readonly 'drop-out': number };

/** A solenoid or solenoid valve: idle cut-off, fuel stop with one winding, primer, cold advance. Once in, it stays in at much less than it needs to pull. */
export const solenoid = definePart({
  kind: 'solenoid',
  title: 'solenoid',
  about: 'a solenoid or solenoid valve; pulls in at one voltage and lets go at a lower one; weak: stays in but would not pull again',
  letter: 'Y',
  load: true,
  serves: 'engine',
  parameters: {
    resistance: resistance('resistance of the winding', 16, 'from memory: idle cut-off valve 0.5 to 1 A'),
    at: ratedVolts,
    'pull-in': share('pulls in at this share of rated volts', 0.6, 'estimate: as the limit of a cube relay'),
    'drop-out': share('lets go under this share of rated volts', 0.25, 'estimate: as a cube relay, 15 to 35 %'),
  },
  terminals: () => oneAndTwo,
  elements: ({ params }) => [{ id: '', from: '1', to: '2', ohm: params.resistance }],
  initial: () => ({ pulled: false }),
  settle: ({ params }, at, read) => {
    const volts = Math.abs(ownVolts(resistive(params.resistance), read.across('1', '2'), read.amperes('')));
    return pulledState(at.state, volts, params['pull-in'] * params.at, params['drop-out'] * params.at);
  },
  judge: ({ params }, at, read) => {
    const amperes = Math.abs(read.amperes(''));
    const wouldPull = amperes * params.resistance >= params['pull-in'] * params.at;
    const verdict = at.state['pulled'] !== true ? 'dead' : wouldPull ? 'works' : 'weak';
    const volts = Math.abs(read.across('1', '2'));
    return { verdict: withExcess(verdict, volts / params.resistance, amperes), volts, amperes };
  },
  loadEnds: () => ['1', '2'],
  poles: ({ params }) => [{ id: '', from: '1', to: '2', symbol: 'solenoid', label: `${params.resistance} Ω` }],
  faults: (part: Part<Held>) => [
    ...loadFaults(
      part.id,
      '',
      'the winding',
      part.params.resistance,
      { open: 1.2, resistance: 0.4, comesAndGoes: 0.6, shorted: 0.1 },
      practice,
    ),
    shortedTurns(part.id, '', 'the winding', part.params.resistance, 0.2, estimate),
    {
      subject: part.id,
      words: 'stuck',
      text: 'the plunger does not move, although the winding is good',
      weight: 0.5,
      source: practice,
      excludes: `${part.id} stuck`,
      changes: () => [{ do: 'params', patch: { 'pull-in': 1000 } }],
    },
  ],
  access: () => accessOf(6, 'at the valve', undefined, 30),
});
