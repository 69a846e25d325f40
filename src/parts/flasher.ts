import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';

/** What the electronics draw through, Ω (estimate: 10 mA). */
const control_ohm = 1200;
/** Less than this through the contact is no lamp, A (estimate): it then waits closed. */
const lamp_A = 0.1;

/**
 * Flasher unit. At one instant it is looked at in the lit half of its beat; in a play, where its state counts `beats`,
 * it opens and closes for half a beat each as long as a lamp draws. A lamp missing makes it beat faster.
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
  initial: () => ({ fed: false, lit: true, fast: false }),
  elements: ({ params }, { state }) => {
    const lit = state['lit'] !== false;
    const beats = params.form === 'thermal' || state['fed'] === true;
    return [
      { id: '49-49a', from: '49', to: '49a', ohm: beats && lit ? params.contact : Number.POSITIVE_INFINITY },
      // A thermal one has nothing to terminal 31.
      { id: 'control', from: '49', to: '31', ohm: params.form === 'electronic' ? control_ohm : 1e9 },
    ];
  },
  settle: ({ params }, { state }, read) => {
    const fed = params.form === 'electronic' && (Math.abs(read.amperes('control')) * control_ohm) / params.nominal >= 0.5;
    const now = fed === (state['fed'] === true) ? state : { ...state, fed };
    if (typeof state['beats'] !== 'number') return now;
    if (state['lit'] === false) return { ...now, lit: true, beats: state['beats'] + 1 };
    const amperes = Math.abs(read.amperes('49-49a'));
    return amperes > lamp_A ? { ...now, lit: false, fast: amperes < params['fast-below'] } : now;
  },
  timing: {
    slow: { beats: 0 },
    delay: ({ params }, state, wanted) => (wanted['lit'] === state['lit'] ? 0 : 30 / params.rate / (wanted['fast'] === true ? 2 : 1)),
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
