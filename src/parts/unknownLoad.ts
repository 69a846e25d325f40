import type * as v from 'valibot';
import type { Law } from '../circuit/element.ts';
import { steadyDraw } from '../circuit/laws.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { writtenNames } from '../circuit/written.ts';
import { accessOf } from './shared/access.ts';
import { judgedByLaw } from './shared/lawVerdict.ts';
import { loadFaults } from './shared/loadFaults.ts';
import { limits, ratedVolts } from './shared/loadParameters.ts';
import { estimate } from './shared/sources.ts';

type Held = {
  readonly current: number;
  readonly resistance: number | undefined;
  readonly at: number;
  readonly 'weak-below': number;
  readonly 'dead-below': number;
  readonly terminals: readonly string[];
};

const terminalsForm: v.GenericSchema<unknown, readonly string[]> = writtenNames();
const oneTwo: readonly string[] = ['1', '2'];

/** A box of which only the current is known: measured on the vehicle, no diagram for what is inside. */
export const unknownLoad = definePart({
  kind: 'unknown-load',
  title: 'unknown load',
  about: 'something of which only the current was measured; drawn as a box; a resistance makes its current follow the volts',
  letter: 'A',
  parameters: {
    current: {
      as: 'quantity',
      dimension: 'current',
      about: 'current as measured; 0 A while nobody measured it',
      required: true,
      min: 0,
      max: 2000,
    },
    terminals: {
      as: 'form',
      schema: terminalsForm,
      about: 'its terminals: the current enters at the first and leaves at the last; what the others do is not known',
      default: oneTwo,
      source: 'how two terminals are numbered by habit',
      written: '[30, 15, 31]',
    },
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
  check: ({ params: { terminals } }) =>
    terminals.length < 2 || new Set(terminals).size < terminals.length
      ? [{ at: ['terminals'], what: 'a box has two terminals or more, each with a name of its own', mend: ['write `terminals: [30, 31]`'] }]
      : [],
  load: true,
  serves: 'comfort',
  terminals: ({ params }) => params.terminals.map((name) => ({ name })),
  elements: ({ params }) => {
    const [last, ...others] = [params.terminals.at(-1)!, ...params.terminals.slice(0, -1)];
    // Nobody knows what is between the other terminals: nothing, until somebody measures it.
    return others.map((from, k) =>
      k === 0 ? { id: '', from, to: last, law: lawOf(params) } : { id: from, from, to: last, ohm: Number.POSITIVE_INFINITY },
    );
  },
  judge: ({ params }, _at, read) =>
    judgedByLaw(lawOf(params), read.across(...ends(params)), read.amperes(''), params.at, params['weak-below'], params['dead-below']),
  loadEnds: ({ params }) => ends(params),
  poles: ({ params }) =>
    params.terminals.slice(0, -1).map((from, k) => ({
      id: k === 0 ? '' : from,
      from,
      to: params.terminals.at(-1)!,
      symbol: 'box',
      label: k > 0 ? '?' : `? ${Number(params.current.toPrecision(3))} A`,
    })),
  faults: (part: Part<Held>) =>
    loadFaults(
      part.id,
      '',
      'the unknown load',
      part.params.resistance ?? part.params.at / Math.max(part.params.current, 1e-6),
      { open: 1, resistance: 0.3, comesAndGoes: 0.5, shorted: 0.2 },
      estimate,
    ),
  access: () => accessOf(10, 'not known'),
});

const ends = ({ terminals }: Held): readonly [string, string] => [terminals[0]!, terminals.at(-1)!];

/** A law in both cases: whether a resistance is known must not change the pattern of the network. */
function lawOf({ current, resistance }: Held): Law {
  return resistance === undefined ? steadyDraw(current, 0.5) : (volts) => ({ ampere: volts / resistance, siemens: 1 / resistance });
}
