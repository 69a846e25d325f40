import type { Element } from '../circuit/element.ts';
import { junction } from '../circuit/laws.ts';
import { definePart, type FaultMode, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';

type Form = 'make' | 'break' | 'changeover' | 'double-make';
/** Contacts by form: closed when pulled, and closed when released. */
const contactsOf: Readonly<Record<Form, { readonly pulled: readonly string[]; readonly released: readonly string[] }>> = {
  make: { pulled: ['87'], released: [] },
  break: { pulled: [], released: ['87a'] },
  changeover: { pulled: ['87'], released: ['87a'] },
  'double-make': { pulled: ['87', '87b'], released: [] },
};

const operate_s = 0.005;
const release_s = 0.003;

/**
 * A plug-in relay. It pulls and drops by the current of its coil, so that an open coil under full volts stays down;
 * between drop-out and pull-in it stays where it is.
 */
export const relay = definePart({
  kind: 'relay',
  title: 'relay',
  about: 'coil 86 to 85, contact 30 to 87 and 87a; pulls in and drops out with hysteresis',
  letter: 'K',
  parameters: {
    form: {
      as: 'word',
      words: ['make', 'break', 'changeover', 'double-make'],
      about: 'its contacts',
      default: 'make',
      source: practice,
    },
    nominal: {
      as: 'quantity',
      dimension: 'voltage',
      about: 'volts that the coil is made for',
      default: 12,
      min: 1,
      max: 100,
      source: 'nominal voltage of a 12 V vehicle',
    },
    coil: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'resistance of the coil',
      default: 85,
      min: 0.1,
      max: 1e6,
      source: 'maker’s sheet of a 12 V cube relay, 85 Ω (secondary); a 24 V one has 255 to 320 Ω',
    },
    'pull-in': {
      as: 'quantity',
      dimension: 'share',
      about: 'share of nominal volts at which it pulls',
      default: 0.6,
      min: 0.05,
      max: 1,
      source: 'limit of pull-in, 60 % of nominal, a trade page on vehicle relays (secondary)',
    },
    'drop-out': {
      as: 'quantity',
      dimension: 'share',
      about: 'share of nominal volts under which it drops',
      default: 0.25,
      min: 0.01,
      max: 0.99,
      source: 'from memory: real relays drop at 15 to 35 % of nominal',
    },
    suppression: {
      as: 'word',
      words: ['none', 'diode', 'resistor'],
      about: 'what lies across the coil; a diode wants 86 positive',
      default: 'none',
      source: practice,
    },
    rating: {
      as: 'quantity',
      dimension: 'current',
      about: 'what a contact may carry all the time',
      default: 30,
      min: 0.01,
      max: 1000,
      source: 'common practice, no source: the usual mark; a maker’s sheet allows 35 A at 85 °C (secondary)',
    },
    'short-rating': {
      as: 'quantity',
      dimension: 'current',
      about: 'what a contact may carry for some seconds, while the starter turns; absent: no more than `rating`',
      min: 0.01,
      max: 5000,
    },
    contact: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'a closed contact',
      default: 0.002,
      min: 1e-9,
      max: 1e3,
      source: 'maker’s sheets: 15 to 20 mV at 10 A new (secondary)',
    },
  },
  check: ({ params }) =>
    params['drop-out'] < params['pull-in']
      ? []
      : [{ at: ['drop-out'], what: 'the relay drops out at no less than it pulls in at', mend: ['make drop-out less than pull-in'] }],
  terminals: ({ params }) => {
    const { pulled, released } = contactsOf[params.form];
    return [
      { name: '85', about: 'coil, return side' },
      { name: '86', about: 'coil, feed side' },
      { name: '30', about: 'common contact' },
      ...[...pulled, ...released].map((name) => (params.form === 'changeover' ? { name, optional: true as const } : { name })),
    ];
  },
  varies: ['state'],
  initial: () => ({ pulled: false }),
  elements: ({ params }, at) => {
    const pulled = at.state['pulled'] === true;
    const { pulled: make, released: rest } = contactsOf[params.form];
    const contact = (to: string, closed: boolean): Element => ({
      id: `30-${to}`,
      from: '30',
      to,
      ohm: closed ? params.contact : Number.POSITIVE_INFINITY,
    });
    return [
      { id: 'coil', from: '86', to: '85', ohm: params.coil },
      ...suppressionOf(params.suppression),
      ...make.map((to) => contact(to, pulled)),
      ...rest.map((to) => contact(to, !pulled)),
    ];
  },
  settle: ({ params }, { state }, read) => {
    const share = (Math.abs(read.amperes('coil')) * params.coil) / params.nominal;
    const pulled = state['pulled'] === true ? share >= params['drop-out'] : share >= params['pull-in'];
    return pulled === (state['pulled'] === true) ? state : { ...state, pulled };
  },
  timing: {
    // Sources: maker's sheets, 5 and 3 ms (secondary); with a diode 3 to 5 times longer: from memory.
    delay: ({ params }, _state, wanted) =>
      wanted['pulled'] === true
        ? operate_s
        : release_s * (params.suppression === 'diode' ? 4 : params.suppression === 'resistor' ? 1.5 : 1),
  },
  ratings: ({ params }) => {
    const { pulled, released } = contactsOf[params.form];
    return [...pulled, ...released].map((to) => ({
      element: `30-${to}`,
      limit_A: params.rating,
      ...(params['short-rating'] !== undefined && { short_A: params['short-rating'] }),
      what: `relay contact 30-${to}`,
      source: 'rating of the relay, in the circuit file or common practice',
    }));
  },
  poles: ({ params }) => {
    const { pulled, released } = contactsOf[params.form];
    return [
      { id: 'coil', from: '86', to: '85', symbol: 'relay-coil' },
      ...[...pulled, ...released].map((to) => ({ id: `30-${to}`, from: '30', to, symbol: 'contact' })),
    ];
  },
  faults: (part) => relayFaults(part),
  access: () => accessOf(2, 'in the relay box', undefined, 12),
});

/** A diode across the coil lies the wrong way round for the feed; a resistor does not care. Source: 560 to 680 Ω from memory. */
function suppressionOf(suppression: 'none' | 'diode' | 'resistor'): readonly Element[] {
  if (suppression === 'none') return [];
  if (suppression === 'resistor') return [{ id: 'suppression', from: '86', to: '85', ohm: 620 }];
  return [{ id: 'suppression', from: '85', to: '86', law: junction(0.6, 0.05) }];
}

function relayFaults(part: Part<{ readonly form: Form; readonly suppression: string; readonly contact: number; readonly coil: number }>) {
  const { form, suppression, contact, coil } = part.params;
  const { pulled, released } = contactsOf[form];
  const [main = '', ...others] = [...pulled, ...released];
  const weights = { open: 0.7, resistance: 1.5, comesAndGoes: 1, stuck: 0.7 };
  const source = practice;
  const contacts = [main, ...others].flatMap((to, k) =>
    contactFaults(
      part.id,
      k === 0 ? 'contact' : `contact ${to}`,
      `30-${to}`,
      `relay contact 30-${to}`,
      contact,
      k === 0 ? weights : { open: 0.3, resistance: 0.3, comesAndGoes: 0.2, stuck: form === 'double-make' ? 0.2 : 0 },
      source,
      k === 0 && form === 'changeover' ? others.map((o) => `30-${o}`) : [],
    ),
  );
  const coilFaults = seriesFaults(`${part.id}.coil`, 'coil', 'the relay coil', { open: 0.8, resistance: 0.3, comesAndGoes: 0.3 }, source, [
    0.3 * coil,
    coil,
  ]);
  const diode: FaultMode[] =
    suppression === 'diode'
      ? [
          {
            subject: part.id,
            words: 'diode shorted',
            text: 'the diode across the coil is shorted',
            weight: 0.2,
            source: estimate,
            excludes: `${part.id} diode`,
            changes: () => [{ do: 'fix', element: 'suppression', ohm: 0.1 }],
          },
        ]
      : [];
  return [...contacts, ...coilFaults, ...diode];
}
