import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { practice } from './shared/sources.ts';

/** A screw that joins wires to the body or to the engine block, and can corrode. */
export const groundPoint = definePart({
  kind: 'ground-point',
  title: 'ground point',
  about: 'a screw on the body or the engine block that can corrode; one terminal',
  letter: 'XE',
  parameters: {
    on: { as: 'word', words: ['body', 'engine'], about: 'what it is screwed to', default: 'body', source: practice },
    contact: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'ring terminal on clean metal',
      default: 0.001,
      min: 1e-9,
      max: 1e6,
      source: 'estimate: 0.5 to 2 mΩ on clean metal, 20 mΩ to many Ω on rust',
    },
  },
  terminals: () => [{ name: '1' }],
  elements: ({ params }) => [{ id: '', from: '1', to: params.on === 'engine' ? 'block' : 'ground', ohm: params.contact }],
  poles: ({ params }) => [{ id: '', from: '1', to: params.on === 'engine' ? 'block' : 'ground', symbol: 'ground-point' }],
  faults: (part) =>
    seriesFaults(part.id, '', 'the ground point', { open: 0.8, resistance: 2, comesAndGoes: 0.8 }, practice, [0.05, 0.5, 3]),
  access: () => accessOf(4, 'at the ground screw'),
});
