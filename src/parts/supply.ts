import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate } from './shared/sources.ts';

/** A bench supply. With no inner resistance it is exact: its two terminals are one node with an offset. */
export const supply = definePart({
  kind: 'supply',
  title: 'supply',
  about: 'a steady voltage for teaching and the bench; terminals + and -',
  letter: 'G',
  parameters: {
    voltage: { as: 'quantity', dimension: 'voltage', about: 'volts with nothing drawing', required: true, min: -1000, max: 1000 },
    resistance: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'inner resistance; 0 Ω is exact',
      default: 0,
      min: 0,
      max: 1e12,
      source: 'definition of an exact supply',
    },
  },
  terminals: () => [{ name: '+' }, { name: '-' }],
  elements: ({ params }) => [{ id: '', plus: '+', minus: '-', volt: params.voltage, ohm: params.resistance }],
  supply: () => ['+', '-'],
  poles: ({ params }) => [{ id: '', from: '+', to: '-', symbol: 'supply', label: `${params.voltage} V` }],
  faults: (part) => seriesFaults(part.id, '', 'the supply', { open: 0.2, resistance: 0.3, comesAndGoes: 0.1 }, estimate),
  access: () => accessOf(1, 'on the bench'),
});
