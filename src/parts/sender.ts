import * as v from 'valibot';
import { definePart, type Part } from '../circuit/part.ts';
import { writtenQuantity } from '../circuit/written.ts';
import { accessOf } from './shared/access.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { resistance } from './shared/loadParameters.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

type Held = { readonly resistance: number; readonly values: Readonly<Record<string, number>> | undefined };

/** Sender of a gauge: fuel float or temperature. With `values` its level or heat is set by hand. */
export const sender = definePart({
  kind: 'sender',
  title: 'sender',
  about: 'a resistance that follows level or heat; `values` gives it settings',
  letter: 'B',
  parameters: {
    resistance: resistance('its resistance, when it has no settings', 60, estimate),
    values: {
      as: 'form',
      about: 'settings by hand with their resistance, the first at rest',
      schema: v.pipe(
        v.record(
          v.pipe(v.string(), v.regex(/^\p{L}/u, 'a setting begins with a letter')),
          writtenQuantity('resistance', { min: 1e-3, max: 1e7 }),
        ),
        v.check((values) => Object.keys(values).length >= 2, 'at least two settings are needed; one resistance goes into `resistance`'),
      ),
      written: '{ half: 100 Ω, empty: 250 Ω, full: 35 Ω }',
      source: estimate,
    },
  },
  terminals: () => oneAndTwo,
  settings: ({ params }) => Object.keys(params.values ?? {}),
  varies: ['hand'],
  elements: ({ params }, at) => [{ id: '', from: '1', to: '2', ohm: ohmAt(params, at.setting) }],
  poles: () => [{ id: '', from: '1', to: '2', symbol: 'sender' }],
  faults: (part: Part<Held>) =>
    loadFaults(part.id, '', 'the sender', ohmAt(part.params, ''), { open: 1.5, resistance: 1, comesAndGoes: 1, shorted: 0.5 }, practice),
  access: () => accessOf(15, 'at the tank or the engine', undefined, 50),
});

function ohmAt({ resistance: plain, values }: Held, setting: string): number {
  return values?.[setting] ?? Object.values(values ?? {})[0] ?? plain;
}
