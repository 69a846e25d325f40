import { steadyDraw } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { current, limits, ratedVolts } from './shared/loadParameters.ts';
import { oneTwoLoad } from './shared/oneTwoLoad.ts';
import { estimate, practice } from './shared/sources.ts';

type Held = { readonly draws: number; readonly at: number; readonly 'weak-below': number; readonly 'dead-below': number };

/** A warning buzzer: key left in, lamps left on, no oil. */
export const buzzer = definePart({
  kind: 'buzzer',
  title: 'buzzer',
  about: 'a warning buzzer',
  letter: 'B',
  serves: 'comfort',
  driver: { works: 'sounds', weak: 'is faint', dead: 'is silent' },
  parameters: { draws: current('current at rated volts', 0.03, estimate), at: ratedVolts, ...limits(0.6, 0.3) },
  ...oneTwoLoad<Held>({ symbol: 'buzzer', takes: ({ draws }) => steadyDraw(draws, 1) }),
  faults: (part: Part<Held>) =>
    loadFaults(
      part.id,
      '',
      'the buzzer',
      part.params.at / part.params.draws,
      { open: 1, resistance: 0.2, comesAndGoes: 0.4, shorted: 0.1 },
      practice,
    ),
  access: () => accessOf(8, 'behind the dash', undefined, 10),
});
