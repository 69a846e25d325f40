import { junction } from '../circuit/laws.ts';
import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { current, voltage } from './shared/loadParameters.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, fromMemory, practice } from './shared/sources.ts';

/** Slope of a small power diode beyond its knee, Ω: about 0.8 V at 1 A and 1.0 V at 5 A (from memory). */
const bulk_ohm = 0.05;
/** A diode that broke through leaves a short of some hundredths of an ohm (estimate). */
const broken_ohm = 0.02;

/** Lets current through from a to k only: keeps a lamp from feeding backwards, quenches a coil. */
export const diode = definePart({
  kind: 'diode',
  title: 'diode',
  about: 'lets current through from a to k only',
  letter: 'V',
  parameters: {
    forward: voltage('volts at which it begins to carry', 0.7, fromMemory),
    carries: current('continuous current that it bears', 3, 'from memory: 1 to 3 A for the diodes taped into a harness'),
  },
  terminals: () => [
    { name: 'a', about: 'anode: current enters here' },
    { name: 'k', about: 'cathode: marked by the ring' },
  ],
  elements: ({ params }) => [{ id: '', from: 'a', to: 'k', law: junction(params.forward, bulk_ohm) }],
  ratings: ({ params }) => [{ element: '', limit_A: params.carries, what: 'diode', source: fromMemory }],
  poles: () => [{ id: '', from: 'a', to: 'k', symbol: 'diode' }],
  faults: (part) => [
    ...seriesFaults(part.id, '', 'the diode', { open: 0.6, resistance: 0.2, comesAndGoes: 0.2 }, practice, [1, 10, 100]),
    {
      subject: part.id,
      words: 'shorted',
      text: 'the diode lets current through both ways',
      weight: 0.6,
      source: practice,
      changes: () => [{ do: 'fix', element: '', ohm: broken_ohm }],
    },
    {
      subject: part.id,
      words: 'leaks',
      detail: { dimension: 'current', default: 0.02, grades: [0.002, 0.02], min: 1e-6, max: 10, optional: false },
      text: 'the diode leaks backwards',
      weight: 0.2,
      source: estimate,
      excludes: `${part.id} leaks`,
      changes: (ampere) => [{ do: 'draw', from: `${part.id}.k`, to: `${part.id}.a`, ampere }],
    },
  ],
  access: () => accessOf(10, 'taped into the harness or behind the fuse box', undefined, 2),
});
