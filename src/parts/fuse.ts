import type { Reading } from '../circuit/element.ts';
import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { addedLoad } from './shared/addedLoad.ts';
import { certainShare, openingTime } from './shared/fuseCurve.ts';
import { fuseResistance } from './shared/fuseResistance.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

const shareOf = (rating: number, read: Reading): number => Math.abs(read.amperes('')) / rating;

/** Time constant with which a fuse that held cools again, s (estimate). */
const cooling_s = 30;

/**
 * A fuse. At one instant it opens when it carries what opens it for certain (135 % of a blade fuse); over time its
 * `heat` (1 = open) rises by the middle of its time-current table, and then only the heat decides.
 */
export const fuse = definePart({
  kind: 'fuse',
  title: 'fuse',
  about: 'opens for good when it carries too much; terminals 1 and 2',
  letter: 'F',
  parameters: {
    rating: { as: 'quantity', dimension: 'current', about: 'amperes marked on it', required: true, min: 0.1, max: 500 },
    form: { as: 'word', words: ['blade', 'mini', 'maxi', 'ceramic', 'glass'], about: 'its form', default: 'blade', source: practice },
    resistance: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'cold resistance; absent: by form and rating',
      min: 1e-9,
      max: 100,
    },
  },
  terminals: () => oneAndTwo,
  varies: ['state'],
  initial: () => ({ blown: false }),
  elements: ({ params }, at) => {
    const ohm = params.resistance ?? fuseResistance(params.rating, params.form);
    return [{ id: '', from: '1', to: '2', ohm: at.state['blown'] === true ? Number.POSITIVE_INFINITY : ohm }];
  },
  settle: ({ params }, { state }, read) => {
    if (state['blown'] === true) return state;
    const { heat } = state;
    const opens = typeof heat === 'number' ? heat >= 1 : shareOf(params.rating, read) >= certainShare(params.form);
    return opens ? { ...state, blown: true } : state;
  },
  opensIn: ({ params }, { state }, read) => {
    const share = shareOf(params.rating, read);
    if (state['blown'] === true || share < certainShare(params.form)) return Number.POSITIVE_INFINITY;
    return openingTime(share, params.form).mean_s;
  },
  timing: {
    slow: { heat: 0 },
    rates: ({ params }, _at, read) => {
      const heats = 1 / openingTime(shareOf(params.rating, read), params.form).mean_s;
      return { heat: heats > 0 ? heats : { to: 0, tau: cooling_s } };
    },
  },
  shunt: ({ params }) => ({
    rating_A: params.rating,
    ohm: params.resistance ?? fuseResistance(params.rating, params.form),
    // Data sheet values scatter by 10 to 15 % from part to part; end caps of the older forms by more.
    spread: params.form === 'ceramic' || params.form === 'glass' ? 0.3 : 0.13,
    source:
      params.form === 'ceramic' || params.form === 'glass'
        ? estimate
        : "typical cold resistance, maker's data sheets (secondary) and from memory",
  }),
  ratings: ({ params }) => [
    { element: '', limit_A: 0.8 * params.rating, short_A: params.rating, what: `80 % of a ${params.rating} A fuse`, source: practice },
  ],
  poles: ({ params }) => [{ id: '', from: '1', to: '2', symbol: 'fuse', label: `${params.rating} A` }],
  faults: (part) => {
    const { rating, form } = part.params;
    const clip = form === 'ceramic' || form === 'glass' ? 'corroded ends' : 'a loose clip';
    const [, resistance, touch] = seriesFaults(
      part.id,
      '',
      `fuse ${part.id} with ${clip}`,
      { open: 1, resistance: form === 'ceramic' ? 3 : 0.8, comesAndGoes: form === 'ceramic' ? 1.5 : 0.5 },
      practice,
      [0.05, 0.5, 3],
    );
    return [
      {
        subject: part.id,
        words: 'blown',
        text: `fuse ${part.id} is blown`,
        weight: 3,
        source: practice,
        changes: () => [{ do: 'series', element: '', ohm: Number.POSITIVE_INFINITY }],
      },
      resistance!,
      touch!,
      {
        subject: part.id,
        words: 'wrong rating',
        detail: { dimension: 'current', default: 3 * rating, grades: [3 * rating, rating / 3], min: 0.1, max: 500, optional: false },
        text: 'a fuse of another rating is fitted',
        weight: 0.3,
        source: estimate,
        excludes: `${part.id} wrong rating`,
        changes: (ampere) => [{ do: 'params', patch: { rating: ampere } }],
      },
      addedLoad(part.id, 'feeds an accessory', 'an accessory was added behind this fuse', [`${part.id}.2`, 'ground'], 0.15, estimate),
    ];
  },
  access: () => accessOf(2, 'in the fuse box', undefined, 0.5),
});
