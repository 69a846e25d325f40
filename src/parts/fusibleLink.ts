import type { Reading } from '../circuit/element.ts';
import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { wireResistance } from './shared/copper.ts';
import { meltingTime_s, steadyMelting_A } from './shared/melting.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

type LinkParams = { readonly rating: number | undefined; readonly area: number; readonly length: number };

/** Time constant with which a link that held cools again, s (estimate). */
const cooling_s = 60;

/** A link with a rating in amperes opens at 135 % of it, like a maxi fuse; a piece of thin wire where the wire melts. */
const certain_A = (params: LinkParams): number => (params.rating === undefined ? steadyMelting_A(params.area) : 1.35 * params.rating);

/** A thin piece of wire, or a strip with a rating, that melts when the cable behind it is shorted. A blown one may look whole. */
export const fusibleLink = definePart({
  kind: 'fusible-link',
  title: 'fusible link',
  about: 'a short piece of thin wire, or a strip with a rating, that melts before its cable does',
  letter: 'F',
  parameters: {
    rating: { as: 'quantity', dimension: 'current', about: 'amperes, for a link that is marked in amperes', min: 1, max: 1000 },
    area: {
      as: 'quantity',
      dimension: 'area',
      about: 'cross-section, for a link that is a wire: four gauge numbers thinner than its cable',
      default: 0.823,
      min: 0.05,
      max: 50,
      source: '18 AWG for a 14 AWG cable, three trade sources on fusible links (secondary)',
    },
    length: {
      as: 'quantity',
      dimension: 'length',
      about: 'length of the link',
      default: 0.15,
      min: 0.01,
      max: 1,
      source: 'about 150 mm, never over 230 mm: trade sources on fusible links (secondary)',
    },
  },
  terminals: () => oneAndTwo,
  varies: ['state'],
  initial: () => ({ blown: false }),
  elements: ({ params }, at) => {
    // A marked strip loses about as much as a maxi fuse: 56 mV at its rating (maker's data sheet, 40 A 1.4 mΩ, secondary).
    const ohm = params.rating === undefined ? wireResistance(params.length, params.area, at.ambient) : 0.056 / params.rating;
    return [{ id: '', from: '1', to: '2', ohm: at.state['blown'] === true ? Number.POSITIVE_INFINITY : ohm }];
  },
  settle: ({ params }, { state }, read) => {
    if (state['blown'] === true) return state;
    const { heat } = state;
    const opens = typeof heat === 'number' ? heat >= 1 : amperes(read) >= certain_A(params);
    return opens ? { ...state, blown: true } : state;
  },
  opensIn: ({ params }, { state }, read) =>
    state['blown'] === true || amperes(read) < certain_A(params) ? Number.POSITIVE_INFINITY : seconds(params, amperes(read)),
  timing: {
    slow: { heat: 0 },
    rates: ({ params }, _at, read) => ({
      heat: amperes(read) >= certain_A(params) ? 1 / seconds(params, amperes(read)) : { to: 0, tau: cooling_s },
    }),
  },
  ratings: ({ params }) => [
    {
      element: '',
      limit_A: params.rating === undefined ? steadyMelting_A(params.area) / 2 : 0.8 * params.rating,
      what: params.rating === undefined ? 'half of what melts the link' : `80 % of a ${params.rating} A link`,
      source: practice,
    },
  ],
  poles: ({ params }) => [
    { id: '', from: '1', to: '2', symbol: 'link', label: params.rating === undefined ? `${params.area} mm²` : `${params.rating} A` },
  ],
  faults: (part) => [
    {
      subject: part.id,
      words: 'blown',
      text: `link ${part.id} is molten; it may look whole`,
      weight: 1.5,
      source: practice,
      changes: () => [{ do: 'series', element: '', ohm: Number.POSITIVE_INFINITY }],
    },
    ...seriesFaults(part.id, '', `link ${part.id}`, { open: 0, resistance: 1, comesAndGoes: 0.5 }, estimate, [0.01, 0.1, 1]),
  ],
  access: () => accessOf(4, 'at the battery or the starter', 'unfused feed: disconnect the battery first'),
});

const amperes = (read: Reading): number => Math.abs(read.amperes(''));

/** A wire melts by its area; a marked strip by the time of a wire that melts at 135 % of the mark. */
function seconds(params: LinkParams, ampere: number): number {
  if (params.rating === undefined) return meltingTime_s(ampere, params.area);
  return 600 * (certain_A(params) / ampere) ** 5;
}
