import { zenerJunction } from '../circuit/laws.ts';
import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { voltage } from './shared/loadParameters.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, fromMemory } from './shared/sources.ts';

/** Slope of a power Zener beyond either knee, Ω (from memory). */
const bulk_ohm = 0.5;

/** A Zener diode: conducts forwards like any diode, and backwards from its own voltage on. */
export const zener = definePart({
  kind: 'zener',
  title: 'Zener diode',
  about: 'conducts backwards, from k to a, above its own voltage: limits peaks, or regulates a small charging set',
  letter: 'V',
  parameters: {
    zener: voltage('volts from k to a above which it carries', 15, 'estimate: above the 14.4 V of a 12 V charging set'),
    forward: voltage('volts from a to k at which it begins to carry', 0.7, fromMemory),
  },
  terminals: () => [
    { name: 'a', about: 'anode' },
    { name: 'k', about: 'cathode: the side of the feed' },
  ],
  elements: ({ params }) => [{ id: '', from: 'a', to: 'k', law: zenerJunction(params.forward, params.zener, bulk_ohm) }],
  poles: ({ params }) => [{ id: '', from: 'k', to: 'a', symbol: 'zener', label: `${params.zener} V` }],
  faults: (part) => [
    ...seriesFaults(part.id, '', 'the Zener diode', { open: 0.6, resistance: 0.2, comesAndGoes: 0.2 }, estimate, [1, 10, 100]),
    {
      subject: part.id,
      words: 'shorted',
      text: 'the Zener diode is shorted',
      weight: 0.4,
      source: estimate,
      changes: () => [{ do: 'fix', element: '', ohm: 0.02 }],
    },
  ],
  access: () => accessOf(10, 'on its cooling plate', undefined, 10),
});
