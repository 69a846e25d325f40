import type { Reading } from '../circuit/element.ts';
import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { type Curve, curveTime, type OpeningTime } from './shared/fuseCurve.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

/** Trip times for modelling. */
export const breakerCurve: Curve = {
  holds: 1,
  rows: [
    { share: 1.35, least_s: 60, most_s: 3600 },
    { share: 2, least_s: 5, most_s: 60 },
    { share: 6, least_s: 0.2, most_s: 2 },
  ],
  source: '135 % a minute to an hour, 200 % 5 to 60 s: from memory; 600 % an estimate',
};
/** A type 1 breaker closes again after this, s: middle of 5 to 60 s (estimate). */
const reset_s = 17;

const trip = (share: number): OpeningTime => curveTime(share, breakerCurve);
const shareOf = (rating: number, read: Reading): number => Math.abs(read.amperes('')) / rating;

/**
 * A thermal breaker. Type 1 closes by itself and cycles while the fault lasts: at one instant it has no rest and is
 * told as chattering. Type 2 stays open while there is voltage across it. Type 3 stays open until a hand resets it.
 * Source: SAE J553 by a description of its types (secondary).
 */
export const circuitBreaker = definePart({
  kind: 'circuit-breaker',
  title: 'circuit breaker',
  about: 'opens when it carries too much and closes again: by itself (type 1), without volts (type 2), by hand (type 3)',
  letter: 'F',
  parameters: {
    rating: { as: 'quantity', dimension: 'current', about: 'amperes marked on it', required: true, min: 0.5, max: 500 },
    type: { as: 'word', words: ['1', '2', '3'], about: 'how it closes again', default: '1', source: practice },
    resistance: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'its closed contact and heater',
      default: 0.005,
      min: 1e-9,
      max: 10,
      source: estimate,
    },
  },
  terminals: () => oneAndTwo,
  varies: ['state'],
  initial: () => ({ open: false }),
  elements: ({ params }, at) => [
    { id: '', from: '1', to: '2', ohm: at.state['open'] === true ? Number.POSITIVE_INFINITY : params.resistance },
  ],
  settle: ({ params }, { state }, read) => {
    const { heat } = state;
    if (state['open'] === true) {
      const closes = params.type === '1' || (params.type === '2' && Math.abs(read.across('1', '2')) < 0.5);
      return closes && (typeof heat !== 'number' || heat <= 0.1) ? { ...state, open: false } : state;
    }
    const opens = typeof heat === 'number' ? heat >= 1 : shareOf(params.rating, read) >= breakerCurve.rows[0]!.share;
    return opens ? { ...state, open: true } : state;
  },
  opensIn: ({ params }, { state }, read) => {
    const share = shareOf(params.rating, read);
    return state['open'] === true || share < breakerCurve.rows[0]!.share ? Number.POSITIVE_INFINITY : trip(share).mean_s;
  },
  timing: {
    slow: { heat: 0 },
    rates: ({ params }, _at, read) => {
      const heats = 1 / trip(shareOf(params.rating, read)).mean_s;
      // ln 10 time constants from tripped to closed again.
      return { heat: heats > 0 ? heats : { to: 0, tau: reset_s / Math.LN10 } };
    },
  },
  ratings: ({ params }) => [
    { element: '', limit_A: params.rating, short_A: 2 * params.rating, what: `breaker of ${params.rating} A`, source: practice },
  ],
  poles: ({ params }) => [{ id: '', from: '1', to: '2', symbol: 'circuit-breaker', label: `${params.rating} A` }],
  faults: (part) => seriesFaults(part.id, '', `breaker ${part.id}`, { open: 1, resistance: 0.8, comesAndGoes: 0.8 }, estimate),
  access: () => accessOf(3, 'in the fuse box', undefined, 10),
});
