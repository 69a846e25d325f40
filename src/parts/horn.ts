import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { current, limits, ratedVolts } from './shared/loadParameters.ts';
import { oneTwoLoad } from './shared/oneTwoLoad.ts';
import { practice } from './shared/sources.ts';

type Held = { readonly draws: number; readonly at: number; readonly 'weak-below': number; readonly 'dead-below': number };

/** An electric horn; its own interrupter makes the mean current that is given. */
export const horn = definePart({
  kind: 'horn',
  title: 'horn',
  about: 'an electric horn',
  letter: 'B',
  serves: 'comfort',
  driver: { works: 'sounds', weak: 'only croaks', dead: 'is silent' },
  parameters: {
    draws: current('mean current at rated volts', 4, 'load list of a repair text (secondary): 4 A each; another list 18 to 20 A a pair'),
    at: ratedVolts,
    ...limits(0.75, 0.5),
  },
  ...oneTwoLoad<Held>({ symbol: 'horn', takes: ({ at, draws }) => at / draws, label: ({ draws }) => `${draws} A` }),
  faults: (part: Part<Held>) =>
    loadFaults(
      part.id,
      '',
      'the horn',
      part.params.at / part.params.draws,
      { open: 1.5, resistance: 0.8, comesAndGoes: 0.8, shorted: 0.1 },
      practice,
    ),
  access: () => accessOf(8, 'behind the front panel', undefined, 25),
});
