import { definePart } from '../circuit/part.ts';
import type { Condition } from '../circuit/scene.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';

const controlOf = (control: string): readonly [string, string] => (control === '86-85' ? ['86', '85'] : ['15', '31']);
const onIn = (at: Pick<Condition, 'state'>): boolean => at.state['phase'] === 'on';

/**
 * A relay with a clock in it. At one instant it is looked at while its time still runs: closed whenever its control
 * has volts. Over time `after`, `for` and `holds` count.
 */
export const timedRelay = definePart({
  kind: 'timed-relay',
  title: 'timed relay',
  about: 'closes 30 to 87 some time after its control gets volts, for some time, and holds on after they go',
  letter: 'K',
  parameters: {
    control: { as: 'word', words: ['15-31', '86-85'], about: 'terminals of its control', default: '15-31', source: practice },
    after: {
      as: 'quantity',
      dimension: 'time',
      about: 'wait before it closes',
      default: 0,
      min: 0,
      max: 86_400,
      source: 'definition: no wait unless the file says so',
    },
    for: {
      as: 'quantity',
      dimension: 'time',
      about: 'how long it stays closed; absent: as long as its control has volts',
      min: 0,
      max: 86_400,
    },
    holds: {
      as: 'quantity',
      dimension: 'time',
      about: 'how long it stays closed after its control lost its volts',
      default: 0,
      min: 0,
      max: 86_400,
      source: 'definition: none unless the file says so',
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
    coil: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'what its control draws through',
      default: 85,
      min: 0.1,
      max: 1e6,
      source: 'as a plain cube relay, maker’s sheet (secondary)',
    },
    rating: {
      as: 'quantity',
      dimension: 'current',
      about: 'what its contact may carry all the time',
      default: 30,
      min: 0.01,
      max: 1000,
      source: practice,
    },
    contact: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'its closed contact',
      default: 0.003,
      min: 1e-9,
      max: 1e3,
      source: estimate,
    },
  },
  terminals: ({ params }) => [...controlOf(params.control), '30', '87'].map((name) => ({ name })),
  varies: ['state'],
  initial: () => ({ phase: 'rest' }),
  elements: ({ params }, at) => {
    const [from, to] = controlOf(params.control);
    return [
      { id: 'coil', from, to, ohm: params.coil },
      { id: '30-87', from: '30', to: '87', ohm: onIn(at) ? params.contact : Number.POSITIVE_INFINITY },
    ];
  },
  settle: ({ params }, { state }, read) => {
    const share = (Math.abs(read.amperes('coil')) * params.coil) / params.nominal;
    const fed = state['phase'] === 'rest' ? share >= 0.6 : share >= 0.25;
    if (!fed) return state['phase'] === 'rest' ? state : { ...state, phase: 'rest', elapsed: 0 };
    if (state['phase'] === 'rest') return { ...state, phase: 'on', elapsed: 0 };
    const over = params.for !== undefined && typeof state['elapsed'] === 'number' && state['elapsed'] >= params.for;
    return state['phase'] === 'on' && over && params.for! > 0 ? { ...state, phase: 'done' } : state;
  },
  timing: {
    slow: { elapsed: 0 },
    delay: ({ params }, state, wanted) => {
      if (wanted['phase'] === 'on') return params.after;
      return wanted['phase'] === 'rest' && state['phase'] === 'on' ? params.holds : 0;
    },
    rates: (_part, at) => ({ elapsed: onIn(at) ? 1 : 0 }),
  },
  ratings: ({ params }) => [{ element: '30-87', limit_A: params.rating, what: 'relay contact 30-87', source: practice }],
  poles: ({ params }) => {
    const [from, to] = controlOf(params.control);
    return [
      { id: 'coil', from, to, symbol: 'relay-coil' },
      { id: '30-87', from: '30', to: '87', symbol: 'contact' },
    ];
  },
  faults: (part) => [
    ...contactFaults(
      part.id,
      'contact',
      '30-87',
      'relay contact 30-87',
      part.params.contact,
      { open: 0.7, resistance: 1.5, comesAndGoes: 1, stuck: 0.7 },
      practice,
    ),
    ...seriesFaults(`${part.id}.coil`, 'coil', 'the relay control', { open: 1, resistance: 0.2, comesAndGoes: 0.5 }, estimate, [
      part.params.coil,
    ]),
  ],
  access: () => accessOf(2, 'in the relay box', undefined, 20),
});
