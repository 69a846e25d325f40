import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { filamentRate, lampLaw } from './shared/filamentModel.ts';
import { steady } from './shared/inrush.ts';
import { judgedByLaw } from './shared/lawVerdict.ts';
import { gradesOf, seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

/** A filament lamp. Judged by the volts that its current needs, so that a burnt filament under full volts is dead, and so is a shorted holder. */
export const lamp = definePart({
  kind: 'lamp',
  title: 'lamp',
  about: 'a filament lamp; its current follows the 0.55th power of the volts',
  letter: 'E',
  driver: { works: 'lights up', weak: 'glows only dimly', dead: 'stays dark' },
  load: true,
  serves: 'light',
  parameters: {
    power: { as: 'quantity', dimension: 'power', about: 'rated power', required: true, min: 0.05, max: 1000 },
    at: {
      as: 'quantity',
      dimension: 'voltage',
      about: 'volts of the rated power',
      default: 12,
      min: 0.5,
      max: 100,
      source: 'nominal voltage of a 12 V vehicle',
    },
    'weak-below': {
      as: 'quantity',
      dimension: 'share',
      about: 'weak below this share of rated volts (47 % of the light is left at 80 %)',
      default: 0.8,
      min: 0,
      max: 1,
      source: estimate,
    },
    'dead-below': {
      as: 'quantity',
      dimension: 'share',
      about: 'dead below this share of rated volts (2 % of the light is left at 30 %)',
      default: 0.3,
      min: 0,
      max: 1,
      source: estimate,
    },
  },
  terminals: () => oneAndTwo,
  varies: ['state'],
  elements: ({ params }, at) => [{ id: '', from: '1', to: '2', law: lampLaw(params.power, params.at, at.state) }],
  initial: () => steady,
  judge: ({ params }, at, read) =>
    judgedByLaw(
      lampLaw(params.power, params.at, at.state),
      read.across('1', '2'),
      read.amperes(''),
      params.at,
      params['weak-below'],
      params['dead-below'],
    ),
  loadEnds: () => ['1', '2'],
  poles: ({ params }) => [{ id: '', from: '1', to: '2', symbol: 'lamp', label: `${params.power} W` }],
  faults: (part) => {
    const { power, at } = part.params;
    const grades = gradesOf((at * at) / power, 0.1, 0.5, 2);
    return [
      ...seriesFaults(part.id, '', 'the lamp', { open: 5, resistance: 0.8, comesAndGoes: 0.8 }, practice, grades),
      {
        subject: part.id,
        words: 'shorted',
        text: 'the lamp or its holder is shorted',
        weight: 0.2,
        source: estimate,
        changes: () => [{ do: 'fix', element: '', ohm: 0.05 }],
      },
      {
        subject: part.id,
        words: 'wrong lamp',
        detail: { dimension: 'power', default: 2.5 * power, grades: [2.5 * power, power / 4], min: 0.05, max: 1000, optional: false },
        text: 'a lamp of another power is fitted',
        weight: 0.3,
        source: estimate,
        excludes: `${part.id} wrong lamp`,
        changes: (watt) => [{ do: 'params', patch: { power: watt } }],
      },
    ];
  },
  access: () => accessOf(2, 'at the lamp', undefined, 2),
  timing: { rates: (_part, _at, read) => ({ inrush: filamentRate(read.amperes('')) }) },
});
