import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { estimate } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

/** Battery isolator: a big hand switch in a battery cable, closed unless somebody turned it off. */
export const isolator = definePart({
  kind: 'isolator',
  title: 'battery isolator',
  about: 'a hand switch in a battery cable, on unless turned off',
  letter: 'S',
  parameters: {
    contact: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'its closed contact',
      default: 0.0005,
      min: 1e-9,
      max: 1,
      source: 'estimate: 0.1 V at 200 A',
    },
    rating: { as: 'quantity', dimension: 'current', about: 'what its contact may carry all the time', min: 1, max: 5000 },
  },
  terminals: () => oneAndTwo,
  settings: () => ['on', 'off'],
  varies: ['hand'],
  elements: ({ params }, at) => [{ id: '', from: '1', to: '2', ohm: at.setting === 'off' ? Number.POSITIVE_INFINITY : params.contact }],
  ratings: ({ params }) =>
    params.rating === undefined
      ? []
      : [{ element: '', limit_A: params.rating, what: 'isolator contact', source: 'rating in the circuit file' }],
  poles: () => [{ id: '', from: '1', to: '2', symbol: 'contact' }],
  faults: (part) =>
    contactFaults(
      part.id,
      '',
      '',
      'the isolator contact',
      part.params.contact,
      { open: 0.8, resistance: 1, comesAndGoes: 0.8, stuck: 0.2 },
      estimate,
    ).map((m) => (m.detail?.dimension === 'resistance' ? { ...m, detail: { ...m.detail, default: 0.02, grades: [0.005, 0.02, 0.5] } } : m)),
  access: () => accessOf(3, 'at the battery cable'),
});
