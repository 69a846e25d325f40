import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { addedLoad } from './shared/addedLoad.ts';
import { current, limits, ratedVolts } from './shared/loadParameters.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { bridged } from './shared/shortFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';
import { verdictOf } from './shared/verdict.ts';

type Held = { readonly draws: number; readonly at: number; readonly 'weak-below': number; readonly 'dead-below': number };

/** A socket for lighter, lamp or trailer. Empty it is judged by its volts, used by what its guest gets. */
export const socket = definePart({
  kind: 'socket',
  title: 'socket',
  about: 'empty, or used by something with the current given',
  letter: 'X',
  load: true,
  serves: 'comfort',
  parameters: { draws: current('current when used, at rated volts', 5, estimate), at: ratedVolts, ...limits(0.8, 0.3) },
  terminals: () => oneAndTwo,
  settings: () => ['empty', 'used'],
  varies: ['hand'],
  elements: ({ params }, at) => [
    { id: '', from: '1', to: '2', ohm: at.setting === 'used' ? params.at / params.draws : Number.POSITIVE_INFINITY },
  ],
  judge: ({ params }, at, read) => {
    const [volts, amperes] = [Math.abs(read.across('1', '2')), Math.abs(read.amperes(''))];
    const share = at.setting === 'used' ? amperes / params.draws : volts / params.at;
    return { verdict: verdictOf(share, params['weak-below'], params['dead-below']), volts, amperes };
  },
  loadEnds: () => ['1', '2'],
  poles: () => [{ id: '', from: '1', to: '2', symbol: 'socket' }],
  faults: (part: Part<Held>) => [
    ...seriesFaults(part.id, '', 'the contact in the socket', { open: 0.8, resistance: 1, comesAndGoes: 1 }, practice, [0.2, 1, 10]),
    {
      subject: part.id,
      words: 'shorted',
      text: 'something metallic lies in the socket',
      weight: 0.8,
      source: practice,
      changes: () => [{ do: 'bridge', from: `${part.id}.1`, to: `${part.id}.2`, ohm: 0.05 }],
    },
    bridged(part.id, '1', '2', 'the poles', 0.1, estimate),
    addedLoad(part.id, 'feeds a charger', 'a charger stays in the socket', [`${part.id}.1`, `${part.id}.2`], 0.5, practice),
  ],
  access: () => accessOf(3, 'at the socket', undefined, 10),
});
