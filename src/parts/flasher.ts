import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';

/**
 * Flasher unit. At one instant it is looked at in the lit half of its beat; over time `phase` counts beats and the
 * contact is closed in the first half of each. A lamp missing makes it beat faster.
 */
export const flasher = definePart({
  kind: 'flasher',
  title: 'flasher unit',
  about: 'feeds 49a from 49 in beats; the electronic one also needs 31',
  letter: 'K',
  parameters: {
    form: { as: 'word', words: ['thermal', 'electronic'], about: 'thermal needs no terminal 31', default: 'thermal', source: practice },
    rate: {
      as: 'quantity',
      dimension: 'rotation',
      about: 'beats in a minute',
      default: 90,
      min: 10,
      max: 300,
      source: 'UN R48: 90 ± 30 a minute (from memory)',
    },
    'fast-below': {
      as: 'quantity',
      dimension: 'current',
      about: 'beats twice as fast under this current: a lamp is missing',
      default: 2.5,
      min: 0,
      max: 50,
      source: 'estimate: between one 21 W lamp and two',
    },
    nominal: {
      as: 'quantity',
      dimension: 'voltage',
      about: 'volts that it is made for',
      default: 12,
      min: 1,
      max: 100,
      source: 'nominal voltage of a 12 V vehicle',
    },
    contact: { as: 'quantity', dimension: 'resistance', about: 'its closed contact', default: 0.02, min: 1e-9, max: 1e3, source: estimate },
  },
  terminals: () => [
    { name: '49', about: 'feed' },
    { name: '49a', about: 'to the direction switch' },
    { name: '31', about: 'ground, for an electronic one', optional: true },
  ],
  varies: ['state'],
  initial: () => ({ fed: false }),
  elements: ({ params }, { state }) => {
    const lit = typeof state['phase'] !== 'number' || state['phase'] % 1 < 0.5;
    const beats = params.form === 'thermal' || state['fed'] === true;
    return [
      { id: '49-49a', from: '49', to: '49a', ohm: beats && lit ? params.contact : Number.POSITIVE_INFINITY },
      // An electronic one draws some milliamperes; a thermal one has nothing to terminal 31 (estimate).
      { id: 'control', from: '49', to: '31', ohm: params.form === 'electronic' ? 1200 : 1e9 },
    ];
  },
  settle: ({ params }, { state }, read) => {
    const fed = (Math.abs(read.amperes('control')) * 1200) / params.nominal >= 0.5;
    return params.form === 'thermal' || fed === (state['fed'] === true) ? state : { ...state, fed };
  },
  timing: {
    rates: ({ params }, { state }, read) => {
      const current = Math.abs(read.amperes('49-49a'));
      const dark = typeof state['phase'] === 'number' && state['phase'] % 1 >= 0.5;
      // In the dark half there is no current to judge by: it keeps the plain rate.
      return { phase: (params.rate / 60) * (!dark && current > 0.1 && current < params['fast-below'] ? 2 : 1) };
    },
  },
  poles: () => [{ id: '49-49a', from: '49', to: '49a', symbol: 'flasher' }],
  faults: (part) => [
    ...contactFaults(
      part.id,
      '',
      '49-49a',
      'the flasher contact',
      part.params.contact,
      { open: 1.5, resistance: 0.8, comesAndGoes: 1, stuck: 1 },
      practice,
    ),
    ...(part.params.form === 'electronic'
      ? seriesFaults(
          `${part.id}.31`,
          'control',
          'the ground of the flasher unit',
          { open: 0.5, resistance: 0, comesAndGoes: 0.3 },
          estimate,
        )
      : []),
  ],
  access: () => accessOf(3, 'in the relay box', undefined, 15),
});
