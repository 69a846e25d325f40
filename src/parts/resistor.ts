import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';
import { judgedByCurrent } from './shared/verdict.ts';

/** A fixed resistance: for teaching, dropping, and loads that are nothing else. */
export const resistor = definePart({
  kind: 'resistor',
  title: 'resistor',
  about: 'a fixed resistance',
  letter: 'R',
  parameters: {
    resistance: { as: 'quantity', dimension: 'resistance', about: 'its resistance', required: true, min: 1e-9, max: 1e12 },
    at: {
      as: 'quantity',
      dimension: 'voltage',
      about: 'volts at which it does its work, for a resistor that is a load',
      default: 12,
      min: 0.1,
      max: 100,
      source: 'nominal voltage of a 12 V vehicle',
    },
    'weak-below': {
      as: 'quantity',
      dimension: 'share',
      about: 'weak below this share of the current at rated volts',
      default: 0.8,
      min: 0,
      max: 1,
      source: estimate,
    },
    'dead-below': {
      as: 'quantity',
      dimension: 'share',
      about: 'dead below this share of the current at rated volts',
      default: 0.3,
      min: 0,
      max: 1,
      source: estimate,
    },
  },
  terminals: () => oneAndTwo,
  elements: ({ params }) => [{ id: '', from: '1', to: '2', ohm: params.resistance }],
  judge: ({ params }, _at, read) =>
    judgedByCurrent(read.across('1', '2'), read.amperes(''), params.at / params.resistance, params['weak-below'], params['dead-below']),
  loadEnds: () => ['1', '2'],
  poles: () => [{ id: '', from: '1', to: '2', symbol: 'resistor' }],
  faults: (part) => {
    const r = part.params.resistance;
    return [
      ...seriesFaults(part.id, '', 'the resistor', { open: 0.5, resistance: 0.3, comesAndGoes: 0.2 }, practice, [0.1 * r, 0.5 * r, 3 * r]),
      {
        subject: part.id,
        words: 'shorted',
        text: 'the resistor is bridged inside',
        weight: 0.1,
        source: estimate,
        changes: () => [{ do: 'fix', element: '', ohm: Math.min(0.01, part.params.resistance / 100) }],
      },
    ];
  },
  access: () => accessOf(5, 'where it is fitted'),
});
