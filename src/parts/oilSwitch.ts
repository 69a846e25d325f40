import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { shortToGround } from './shared/shortFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

/** Oil pressure switch: closed until the engine runs. A cranked engine has not enough pressure yet. */
export const oilSwitch = definePart({
  kind: 'oil-switch',
  title: 'oil pressure switch',
  about: 'contact of the oil pressure, closed until the engine runs',
  letter: 'B',
  parameters: {
    'closed-when': {
      as: 'word',
      words: ['no pressure', 'pressure'],
      about: 'the state in which its contact is closed',
      default: 'no pressure',
      source: practice,
    },
    contact: { as: 'quantity', dimension: 'resistance', about: 'its closed contact', default: 0.05, min: 1e-9, max: 1e3, source: estimate },
  },
  terminals: () => oneAndTwo,
  varies: ['engine'],
  elements: ({ params }, at) => {
    const closed = (at.engine === 'running') === (params['closed-when'] === 'pressure');
    return [{ id: '', from: '1', to: '2', ohm: closed ? params.contact : Number.POSITIVE_INFINITY }];
  },
  poles: () => [{ id: '', from: '1', to: '2', symbol: 'pressure' }],
  faults: (part) => [
    ...contactFaults(
      part.id,
      '',
      '',
      'the contact',
      part.params.contact,
      { open: 1, resistance: 0.5, comesAndGoes: 0.7, stuck: 1 },
      estimate,
    ),
    shortToGround(part.id, `${part.id}.1`, 'the switch', 0.3, estimate),
  ],
  access: () => accessOf(6, 'at the engine block', 'hot engine'),
});
