import type { Element } from '../circuit/element.ts';
import { steadyDraw } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { isFed, withFlag } from './shared/fed.ts';
import { current, resistance, time, voltage } from './shared/loadParameters.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, fromMemory, practice } from './shared/sources.ts';

type Held = {
  readonly memory: number;
  readonly draws: number;
  readonly needs: number;
  readonly contact: number;
  readonly glows: number;
  readonly rating: number;
};

/**
 * Glow timer with its power relay inside: from 15 on, G is joined to 30 for the glowing time, and on while the engine
 * cranks. `glowed` counts only in a play, so that a single scene shows the first moments after the key was turned.
 */
export const glowTimer = definePart({
  kind: 'glow-timer',
  title: 'glow timer',
  about: 'joins 30 to G for the glowing time after 15 came on, and while the engine cranks',
  letter: 'A',
  parameters: {
    memory: current('current from 30 at rest', 0.001, estimate),
    draws: current('current from 15', 0.15, 'estimate: timer and the coil of its relay'),
    needs: voltage('volts from 15 to 31 that it needs', 6, estimate),
    contact: resistance('resistance of the closed contact', 0.003, estimate),
    glows: time('glowing time after 15 came on', 12, 'from memory: 5 to 20 s with a cold engine'),
    rating: current('continuous current of the contact', 70, fromMemory),
  },
  terminals: () => [
    { name: '30', about: 'feed of the glow plugs' },
    { name: '15', about: 'switched feed' },
    { name: 'G', about: 'to the glow plugs' },
    { name: '31', about: 'ground' },
  ],
  varies: ['state'],
  elements: ({ params }, at): readonly Element[] => [
    { id: '30', from: '30', to: '31', law: steadyDraw(params.memory) },
    { id: '15', from: '15', to: '31', law: steadyDraw(params.draws) },
    { id: 'contact', from: '30', to: 'G', ohm: at.state['glowing'] === true ? params.contact : Number.POSITIVE_INFINITY },
  ],
  initial: () => ({ fed: false, glowing: false, glowed: 0 }),
  settle: ({ params }, at, read) => {
    const fed = read.amperes('15') > 0.3 * params.draws && isFed(at.state, 'fed', read.across('15', '31'), params.needs);
    const state = withFlag(at.state, 'fed', fed);
    const counted = !fed && state['glowed'] !== 0 ? { ...state, glowed: 0 } : state;
    return withFlag(counted, 'glowing', fed && (at.engine === 'cranking' || Number(counted['glowed'] ?? 0) < params.glows));
  },
  poles: () => [
    { id: '15', from: '15', to: '31', symbol: 'module' },
    { id: 'contact', from: '30', to: 'G', symbol: 'contact' },
    { id: '30', from: '30', to: '31', symbol: 'module' },
  ],
  ratings: ({ params }) => [{ element: 'contact', limit_A: params.rating, what: 'contact of the glow timer', source: fromMemory }],
  faults: (part: Part<Held>) => [
    ...contactFaults(
      part.id,
      'contact',
      'contact',
      'the contact of the glow timer',
      part.params.contact,
      { open: 1.5, resistance: 1, comesAndGoes: 0.8, stuck: 0.5 },
      practice,
    ),
    ...seriesFaults(`${part.id}.15`, '15', 'the timer', { open: 1, resistance: 0, comesAndGoes: 0.5 }, practice),
  ],
  access: () => accessOf(8, 'beside the battery or on the bulkhead', 'large unfused current: battery off before unbolting', 90),
  timing: {
    delay: (_part, state, wanted) => (state['glowing'] === wanted['glowing'] ? 0 : 0.01),
    rates: (_part, at) => ({ glowed: at.state['fed'] === true ? 1 : 0 }),
  },
});
