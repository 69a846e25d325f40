import { definePart, type Part } from '../circuit/part.ts';
import type { State } from '../circuit/scene.ts';
import { accessOf } from './shared/access.ts';
import { inrushOf, inrushRate, steady } from './shared/inrush.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { resistance } from './shared/loadParameters.ts';
import { practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

/** Time until a ballast in still air is as hot as its current makes it, and to be cold again, s (estimate). */
const warm_s = 20;
const cool_s = 120;

/** A ballast resistor, or the resistance wire that does its work, in front of an ignition coil. */
export const ballast = definePart({
  kind: 'ballast',
  title: 'ballast resistor or resistance wire',
  about: 'takes part of the volts in front of the ignition coil; bypassed while cranking; never replaced by plain wire',
  letter: 'R',
  parameters: {
    resistance: resistance('its resistance at working heat', 1.5, 'from memory: 1.2 to 1.8 Ω'),
    cold: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'its resistance when cold; without it the same as hot, as for a wire of constantan',
      min: 1e-6,
      max: 1e9,
    },
  },
  terminals: () => oneAndTwo,
  varies: ['state'],
  elements: ({ params }, at) => [{ id: '', from: '1', to: '2', ohm: ohmAt(params.resistance, params.cold, at.state) }],
  initial: () => steady,
  poles: ({ params }) => [{ id: '', from: '1', to: '2', symbol: 'ballast', label: `${params.resistance} Ω` }],
  faults: (part: Part<{ readonly resistance: number; readonly cold: number | undefined }>) => [
    ...loadFaults(
      part.id,
      '',
      'the ballast',
      part.params.resistance,
      { open: 1.5, resistance: 0.8, comesAndGoes: 0.8, shorted: 0.1 },
      practice,
    ),
    {
      subject: part.id,
      words: 'bypassed',
      text: 'the ballast is bridged by plain wire, so that the coil always gets full volts',
      weight: 0.2,
      source: practice,
      changes: () => [{ do: 'fix', element: '', ohm: 0.01 }],
    },
  ],
  access: () => accessOf(3, 'beside the ignition coil; hot in use', 'hot: let it cool before touching', 15),
  timing: {
    rates: (_part, _at, read) => ({ inrush: inrushRate(Math.abs(read.amperes('')) / 0.1, warm_s, cool_s) }),
  },
});

function ohmAt(hot: number, cold: number | undefined, state: State): number {
  const share = inrushOf(state);
  return share === 0 || cold === undefined ? hot : hot + share * (cold - hot);
}
