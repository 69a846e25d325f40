import type { Law } from '../circuit/element.ts';
import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { regulatedMachine } from './shared/machineLaw.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';

/** Armature and field as a load while it stands still, Ω (estimate). */
const standing_ohm = 0.4;
const cutOut_ohm = 0.02;
/** Reverse current at which the cut-out opens, A (estimate: 2 to 8 A). */
const reverse_A = 3;

/**
 * Dynamo with regulator and cut-out in one. It excites itself by what is left of its magnetism. The charge lamp lies
 * between terminal 15 and 61: stopped, 61 leads to ground through the armature; running, it stands at the dynamo's volts.
 */
export const dynamo = definePart({
  kind: 'dynamo',
  title: 'dynamo',
  about: 'charges from B+ through its cut-out while the engine runs; 61 is the charge lamp',
  letter: 'G',
  parameters: {
    voltage: {
      as: 'quantity',
      dimension: 'voltage',
      about: 'regulated volts',
      default: 14.2,
      min: 3,
      max: 60,
      source: 'from memory: 14.2 V for 12 V, 7.0 to 7.4 V for 6 V',
    },
    rated: {
      as: 'quantity',
      dimension: 'current',
      about: 'most that it gives',
      default: 22,
      min: 1,
      max: 500,
      source: 'common practice, no source: a small car of the 1950s',
    },
    'positive-ground': { as: 'flag', about: 'the body is plus: B+ is then the live minus side', default: false, source: practice },
  },
  terminals: () => [
    { name: 'B+', about: 'battery' },
    { name: '61', about: 'charge lamp' },
    { name: '31', about: 'ground' },
  ],
  varies: ['engine', 'state'],
  initial: () => ({ closed: false }),
  elements: ({ params }, at) => {
    const machine = regulatedMachine(params.voltage, params.rated, 0.3);
    const law: Law = params['positive-ground'] ? mirrored(machine) : machine;
    return [
      { id: 'armature', from: '61', to: '31', law: at.engine === 'running' ? law : standing },
      { id: 'cut-out', from: 'B+', to: '61', ohm: at.state['closed'] === true ? cutOut_ohm : Number.POSITIVE_INFINITY },
    ];
  },
  settle: ({ params }, at, read) => {
    const sign = params['positive-ground'] ? -1 : 1;
    const closed =
      at.state['closed'] === true
        ? sign * read.amperes('cut-out') < reverse_A
        : at.engine === 'running' && sign * read.across('61', 'B+') > 0.2 && sign * read.across('61', '31') > 0.85 * params.voltage;
    return closed === (at.state['closed'] === true) ? at.state : { ...at.state, closed };
  },
  supply: ({ params }) => (params['positive-ground'] ? ['31', 'B+'] : ['B+', '31']),
  poles: ({ params }) => [
    { id: 'armature', from: '61', to: '31', symbol: 'dynamo', label: `${params.rated} A` },
    { id: 'cut-out', from: 'B+', to: '61', symbol: 'contact', label: 'cut-out' },
  ],
  faults: (part) => [
    ...contactFaults(
      part.id,
      'cut-out',
      'cut-out',
      'the cut-out contact',
      cutOut_ohm,
      { open: 1, resistance: 1, comesAndGoes: 0.7, stuck: 0.7 },
      practice,
    ),
    ...seriesFaults(part.id, 'armature', 'the dynamo with its brushes', { open: 2, resistance: 0.7, comesAndGoes: 1 }, practice),
    {
      subject: part.id,
      words: 'charges low',
      text: 'the regulator holds the volts too low',
      weight: 0.7,
      source: estimate,
      excludes: `${part.id} volts`,
      changes: () => [{ do: 'params', patch: { voltage: 0.88 * part.params.voltage } }],
    },
    {
      subject: part.id,
      words: 'overcharges',
      text: 'the regulator does not hold the volts down',
      weight: 0.5,
      source: estimate,
      excludes: `${part.id} volts`,
      changes: () => [{ do: 'params', patch: { voltage: 1.25 * part.params.voltage } }],
    },
  ],
  access: () => accessOf(6, 'at the dynamo', 'belt and fan', 200),
});

function standing(volts: number): { readonly ampere: number; readonly siemens: number } {
  return { ampere: volts / standing_ohm, siemens: 1 / standing_ohm };
}

/** The same law with both terminals' signs turned. */
function mirrored(law: Law): Law {
  return (volts) => {
    const { ampere, siemens } = law(-volts);
    return { ampere: -ampere, siemens };
  };
}
