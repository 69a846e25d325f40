import type { Element } from '../circuit/element.ts';
import { junction, steadyDraw } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { current, voltage } from './shared/loadParameters.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { practice } from './shared/sources.ts';

type Held = { readonly voltage: number; readonly carries: number };

/**
 * Instrument stabiliser, by its mean volts: what can pass from 1 to 2 is limited, and what the gauges leave of it goes
 * to 31 above the stabilised volts. Its output is true; its own draw is that of the limit, somewhat more than a
 * chopping one takes. Ground lost: the gauges get full volts and read high, as in the vehicle.
 */
export const stabiliser = definePart({
  kind: 'stabiliser',
  title: 'instrument stabiliser',
  about: '1 in, 2 to the gauges, 31 ground; holds the mean of 2 at 10 V; without its ground the gauges read high',
  letter: 'A',
  parameters: {
    voltage: voltage('volts that it holds at 2', 10, 'from memory: 10 V, some 7 V or 5 V'),
    carries: current('current that it can give to the gauges', 0.4, 'estimate: two gauges of 0.1 to 0.2 A'),
  },
  terminals: () => [
    { name: '1', about: 'feed' },
    { name: '2', about: 'to the gauges' },
    { name: '31', about: 'ground' },
  ],
  elements: ({ params }): readonly Element[] => [
    { id: 'pass', from: '1', to: '2', law: steadyDraw(params.carries, 0.3) },
    { id: 'limit', from: '2', to: '31', law: junction(params.voltage, 0.2) },
  ],
  poles: ({ params }) => [
    { id: 'pass', from: '1', to: '2', symbol: 'stabiliser', label: `${params.voltage} V` },
    { id: 'limit', from: '2', to: '31', symbol: 'zener' },
  ],
  faults: (part: Part<Held>) => [
    ...seriesFaults(part.id, 'pass', 'the stabiliser', { open: 1, resistance: 0.3, comesAndGoes: 0.6 }, practice, [10, 50]),
    {
      subject: part.id,
      words: 'does not regulate',
      text: 'the stabiliser lets full volts through, or has lost its ground inside: all its gauges read high',
      weight: 1,
      source: practice,
      changes: () => [
        { do: 'series', element: 'limit', ohm: Number.POSITIVE_INFINITY },
        { do: 'fix', element: 'pass', ohm: 0.05 },
      ],
    },
  ],
  access: () => accessOf(20, 'behind the instrument panel', undefined, 20),
});
