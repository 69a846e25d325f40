import type { Element } from '../circuit/element.ts';
import { steadyDraw } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { isFed, restartDelay, withFlag } from './shared/fed.ts';
import { current, resistance, voltage } from './shared/loadParameters.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { estimate, fromMemory, practice } from './shared/sources.ts';

type Held = { readonly draws: number; readonly closed: number; readonly needs: number; readonly standstill: 'closed' | 'open' };

/** Electronic ignition: a transistor that grounds terminal 1 of the coil. Reckoned conducting, as points are reckoned closed. */
export const ignitionModule = definePart({
  kind: 'ignition-module',
  title: 'ignition module',
  about: '15 feed, 1 to the coil, 31 ground; grounds the coil while it is fed',
  letter: 'A',
  load: true,
  serves: 'engine',
  parameters: {
    draws: current('own current from 15', 0.1, estimate),
    closed: resistance('resistance of the output while it conducts', 0.2, 'estimate: about 1 V at 5 A'),
    needs: voltage('volts from 15 to 31 that it needs', 6, 'estimate: electronic ignition works down to 6 to 8 V'),
    standstill: {
      as: 'word',
      words: ['closed', 'open'],
      about: 'whether the output conducts while the engine stands',
      default: 'closed',
      source: 'estimate: many cut the current off after a second; closed shows the coil as a driver with the key just turned finds it',
    },
  },
  terminals: () => [
    { name: '15', about: 'feed' },
    { name: '1', about: 'to the coil' },
    { name: '31', about: 'ground' },
  ],
  varies: ['state', 'engine'],
  elements: ({ params }, at): readonly Element[] => {
    const conducts = at.state['fed'] === true && (at.engine !== 'stopped' || params.standstill === 'closed');
    return [
      { id: '15', from: '15', to: '31', law: steadyDraw(params.draws) },
      { id: 'output', from: '1', to: '31', ohm: conducts ? params.closed : Number.POSITIVE_INFINITY },
    ];
  },
  initial: () => ({ fed: false }),
  settle: ({ params }, at, read) =>
    withFlag(at.state, 'fed', read.amperes('15') > 0.3 * params.draws && isFed(at.state, 'fed', read.across('15', '31'), params.needs)),
  timing: { delay: (_part, state, wanted) => restartDelay(state, wanted) },
  judge: ({ params }, at, read) => {
    const volts = read.across('15', '31');
    const verdict = at.state['fed'] !== true ? 'dead' : volts >= params.needs ? 'works' : 'weak';
    return { verdict, volts: Math.abs(volts), amperes: Math.abs(read.amperes('15')) };
  },
  loadEnds: () => ['15', '31'],
  poles: () => [
    { id: '15', from: '15', to: '31', symbol: 'module' },
    { id: 'output', from: '1', to: '31', symbol: 'contact' },
  ],
  faults: (part: Part<Held>) => [
    ...seriesFaults(`${part.id}.15`, '15', 'the feed inside the module', { open: 0.8, resistance: 0, comesAndGoes: 0.6 }, practice),
    ...seriesFaults(
      `${part.id}.output`,
      'output',
      'the output of the module',
      { open: 1.5, resistance: 0.2, comesAndGoes: 1 },
      practice,
      [0.5, 2],
    ),
    {
      subject: `${part.id}.output`,
      words: 'stuck closed',
      text: 'the output conducts all the time: no spark, hot coil',
      weight: 0.4,
      source: fromMemory,
      changes: () => [{ do: 'fix', element: 'output', ohm: part.params.closed }],
    },
  ],
  access: () => accessOf(5, 'near the coil or at the distributor', 'high voltage: keep clear while the engine turns', 80),
});
