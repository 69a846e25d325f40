import type { Element } from '../circuit/element.ts';
import { steadyDraw } from '../circuit/laws.ts';
import { definePart, type Part, type Verdict } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { current, share, voltage } from './shared/loadParameters.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';

type Held = {
  readonly memory: number;
  readonly draws: number;
  readonly at: number;
  readonly 'weak-below': number;
  readonly 'resets-below': number;
};

/** Knee of the two draws, V: electronics take next to nothing under a few volts (estimate). */
const knee_V = 2;

/** Radio with a memory feed from 30 and its main feed from 75. Without the memory feed it plays but has forgotten everything: weak. */
export const radio = definePart({
  kind: 'radio',
  title: 'radio',
  about: '75 switched feed, 30 memory feed, 31 ground; plays with 75, weak without its memory, resets below 7 to 9 V',
  letter: 'A',
  driver: { works: 'plays', weak: 'plays but has lost its memory', dead: 'is dead' },
  load: true,
  serves: 'comfort',
  parameters: {
    memory: current(
      'memory current from 30; 0 A for a set without one',
      0.007,
      "a maker's key-off table (secondary): 7 mA usual, 8 mA most",
      0,
    ),
    draws: current('current from 75, playing', 0.9, 'load list of a repair text (secondary): 0.5 to 5 A'),
    at: voltage('rated volts', 12, 'nominal voltage of a 12 V vehicle'),
    'weak-below': share('weak below this share of rated volts', 0.75, estimate),
    'resets-below': voltage('resets and falls silent below this', 8, 'estimate: 7 to 9 V'),
  },
  terminals: ({ params }) => [
    { name: '30', about: 'memory feed, always live', ...(params.memory === 0 && { optional: true as const }) },
    { name: '75', about: 'switched feed' },
    { name: '31', about: 'ground' },
  ],
  elements: ({ params }): readonly Element[] => [
    { id: '30', from: '30', to: '31', law: steadyDraw(Math.max(1e-9, params.memory), knee_V) },
    { id: '75', from: '75', to: '31', law: steadyDraw(params.draws, knee_V) },
  ],
  judge: ({ params }, _at, read) => {
    const main = feedVerdict(params, read.across('75', '31'), read.amperes('75'), params.draws);
    const memory = params.memory === 0 ? 'works' : feedVerdict(params, read.across('30', '31'), read.amperes('30'), params.memory);
    const verdict: Verdict = main === 'works' && memory !== 'works' ? 'weak' : main;
    return { verdict, volts: Math.abs(read.across('75', '31')), amperes: Math.abs(read.amperes('75')) };
  },
  loadEnds: () => ['75', '31'],
  poles: ({ params }) => [
    { id: '75', from: '75', to: '31', symbol: 'radio', label: `${params.draws} A` },
    { id: '30', from: '30', to: '31', symbol: 'radio', label: 'memory' },
  ],
  faults: (part: Part<Held>) => [
    ...seriesFaults(
      `${part.id}.75`,
      '75',
      'the main feed inside the radio',
      { open: 1, resistance: 0.3, comesAndGoes: 0.6 },
      practice,
      [5, 50],
    ),
    ...seriesFaults(`${part.id}.30`, '30', 'the memory feed inside the radio', { open: 0.5, resistance: 0, comesAndGoes: 0.3 }, practice),
    {
      subject: part.id,
      words: 'draws',
      detail: { dimension: 'current', default: 0.3, grades: [0.05, 0.3], min: 1e-4, max: 20, optional: false },
      text: 'the radio does not switch off: it takes current from its memory feed',
      weight: 0.8,
      source: practice,
      excludes: `${part.id} draws`,
      changes: (ampere) => [{ do: 'draw', from: `${part.id}.30`, to: `${part.id}.31`, ampere }],
    },
  ],
  access: () => accessOf(10, 'in the dash', undefined, 150),
});

/** By volts, and by current: a feed broken inside shows full volts and no current. */
function feedVerdict(params: Held, volts: number, amperes: number, expected_A: number): Verdict {
  if (volts < params['resets-below'] || amperes < 0.5 * expected_A) return 'dead';
  return volts >= params['weak-below'] * params.at && amperes >= 0.9 * expected_A ? 'works' : 'weak';
}
