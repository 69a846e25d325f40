import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { resistance, share } from './shared/loadParameters.ts';
import { shortToGround } from './shared/shortFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { oneAndTwo } from './shared/terminals.ts';

/**
 * Contact breaker. Reckoned closed, also while the engine turns: then every figure is the standing current, of which
 * the dwell is the mean. Whether a stopped engine left it open or closed is set by hand.
 */
export const points = definePart({
  kind: 'points',
  title: 'contact breaker',
  about: 'points of the ignition; closed unless set open by hand; figures are those with the points closed',
  letter: 'S',
  parameters: {
    contact: resistance('resistance of the closed points', 0.03, 'estimate: clean points; a drop over 0.2 V is called too much'),
    dwell: share('share of the time that they are closed while the engine turns', 0.6, 'from memory: 50 to 60 degrees of 90'),
  },
  terminals: () => oneAndTwo,
  settings: () => ['closed', 'open'],
  varies: ['hand'],
  elements: ({ params }, at) => [{ id: '', from: '1', to: '2', ohm: at.setting === 'open' ? Number.POSITIVE_INFINITY : params.contact }],
  poles: ({ params }) => [{ id: '', from: '1', to: '2', symbol: 'points', label: `dwell ${Math.round(100 * params.dwell)} %` }],
  faults: (part) => [
    ...contactFaults(part.id, '', '', 'the points', 0.03, { open: 1.5, resistance: 2.5, comesAndGoes: 1, stuck: 0.6 }, practice),
    shortToGround(part.id, `${part.id}.1`, 'the insulated side of the points, or the condenser,', 0.8, estimate),
  ],
  access: () => accessOf(8, 'under the distributor cap', 'ignition off', 10),
});
