import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';

/** A teaching source that drives the same current through anything; it goes out of + and comes back into -. */
export const currentSupply = definePart({
  kind: 'current-supply',
  title: 'current supply',
  about: 'a steady current for teaching; terminals + and -',
  letter: 'G',
  parameters: {
    current: { as: 'quantity', dimension: 'current', about: 'amperes out of +', required: true, min: -10_000, max: 10_000 },
  },
  terminals: () => [{ name: '+' }, { name: '-' }],
  elements: ({ params }) => [{ id: '', into: '+', outOf: '-', ampere: params.current }],
  supply: () => ['+', '-'],
  poles: ({ params }) => [{ id: '', from: '+', to: '-', symbol: 'current-supply', label: `${params.current} A` }],
  // An ideal current has no inner path that could fail: its wires carry the faults.
  faults: () => [],
  access: () => accessOf(1, 'on the bench'),
});
