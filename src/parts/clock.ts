import { steadyDraw } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { current, limits, ratedVolts } from './shared/loadParameters.ts';
import { oneTwoLoad } from './shared/oneTwoLoad.ts';
import { fromMemory, practice } from './shared/sources.ts';

type Held = { readonly draws: number; readonly at: number; readonly 'weak-below': number; readonly 'dead-below': number };

/** A quartz clock, always fed. */
export const clock = definePart({
  kind: 'clock',
  title: 'clock',
  about: 'a clock with a permanent feed; part of the key-off current',
  letter: 'P',
  serves: 'instruments',
  driver: { works: 'goes', weak: 'goes wrong', dead: 'stands still' },
  parameters: { draws: current('current, unlit', 0.005, 'from memory: 5 mA unlit'), at: ratedVolts, ...limits(0.7, 0.5, fromMemory) },
  ...oneTwoLoad<Held>({ symbol: 'clock', takes: ({ draws }) => steadyDraw(draws, 1) }),
  faults: (part: Part<Held>) => [
    ...loadFaults(
      part.id,
      '',
      'the clock',
      part.params.at / part.params.draws,
      { open: 1, resistance: 0, comesAndGoes: 0.3, shorted: 0.1 },
      practice,
    ),
  ],
  access: () => accessOf(10, 'in the dash', undefined, 25),
});
