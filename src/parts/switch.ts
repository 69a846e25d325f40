import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults, ordinaryContact } from './shared/contactFaults.ts';
import { leakToGround } from './shared/shortFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

/** A hand switch or push button with one contact. */
export const handSwitch = definePart({
  kind: 'switch',
  title: 'switch',
  about: 'a hand switch or push button with one contact',
  letter: 'S',
  parameters: {
    rest: { as: 'word', words: ['open', 'closed'], about: 'its contact untouched', default: 'open', source: practice },
    rating: { as: 'quantity', dimension: 'current', about: 'what its contact may carry all the time', min: 0.001, max: 1000 },
    contact: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'its closed contact',
      default: 0.005,
      min: 1e-9,
      max: 1e3,
      source: 'estimate: new 5 to 10 mΩ',
    },
  },
  terminals: () => oneAndTwo,
  settings: () => ['off', 'on'],
  aliases: { pressed: 'on', released: 'off' },
  varies: ['hand'],
  elements: ({ params }, at) => {
    const closed = (at.setting === 'on') === (params.rest === 'open');
    return [{ id: '', from: '1', to: '2', ohm: closed ? params.contact : Number.POSITIVE_INFINITY }];
  },
  ratings: ({ params }) =>
    params.rating === undefined
      ? []
      : [{ element: '', limit_A: params.rating, what: 'switch contact', source: 'rating in the circuit file' }],
  poles: () => [{ id: '', from: '1', to: '2', symbol: 'contact' }],
  faults: (part) => [
    ...contactFaults(part.id, '', '', 'the contact', part.params.contact, ordinaryContact, estimate),
    leakToGround(part.id, `${part.id}.1`, 'the switch', 0.1, estimate),
  ],
  access: () => accessOf(6, 'behind its panel'),
});
