import type { Law } from '../circuit/element.ts';
import { steadyDraw } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { limits, ratedVolts } from './shared/loadParameters.ts';
import { oneTwoLoad } from './shared/oneTwoLoad.ts';
import { estimate } from './shared/sources.ts';

type Held = {
  readonly current: number;
  readonly resistance: number | undefined;
  readonly at: number;
  readonly 'weak-below': number;
  readonly 'dead-below': number;
};

/** A box of which only the current is known: measured on the vehicle, no diagram for what is inside. */
export const unknownLoad = definePart({
  kind: 'unknown-load',
  title: 'unknown load',
  about: 'something of which only the current was measured; drawn as a box; a resistance makes its current follow the volts',
  letter: 'A',
  parameters: {
    current: { as: 'quantity', dimension: 'current', about: 'current as measured', required: true, min: 1e-6, max: 2000 },
    resistance: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'its resistance, if it is known to be a plain one; the measured current is then shown only',
      min: 1e-4,
      max: 1e9,
    },
    at: ratedVolts,
    ...limits(0.8, 0.3),
  },
  ...oneTwoLoad<Held>({ symbol: 'box', takes: (params) => lawOf(params), label: ({ current }) => `? ${Number(current.toPrecision(3))} A` }),
  faults: (part: Part<Held>) =>
    loadFaults(
      part.id,
      '',
      'the unknown load',
      part.params.resistance ?? part.params.at / part.params.current,
      { open: 1, resistance: 0.3, comesAndGoes: 0.5, shorted: 0.2 },
      estimate,
    ),
  access: () => accessOf(10, 'not known'),
});

/** A law in both cases: whether a resistance is known must not change the pattern of the network. */
function lawOf({ current, resistance }: Held): Law {
  return resistance === undefined ? steadyDraw(current, 0.5) : (volts) => ({ ampere: volts / resistance, siemens: 1 / resistance });
}
