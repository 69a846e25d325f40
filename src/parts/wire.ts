import { definePart, type FaultMode, type Part } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { wireResistance } from './shared/copper.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { leakToGround, shortToFeed, shortToGround } from './shared/shortFaults.ts';
import { estimate, practice } from './shared/sources.ts';
import { shortLimit_A, steadyGuideSource, steadyLimit_A } from './shared/wireGuide.ts';

/** A copper wire; without a length it is an ideal joint. Its resistance is taken at the ambient temperature of the circuit. */
export const wire = definePart({
  kind: 'wire',
  title: 'wire',
  about: 'a copper wire by area or gauge and length; without a length an ideal joint',
  isWire: true,
  letter: 'W',
  parameters: {
    area: {
      as: 'quantity',
      dimension: 'area',
      about: 'cross-section, mm² or AWG',
      default: 1,
      min: 0.05,
      max: 500,
      source: 'common practice, no source: the usual thin wire of a vehicle',
    },
    length: {
      as: 'quantity',
      dimension: 'length',
      about: 'length of the run; absent: an ideal joint; `unknown`: 1 m',
      unknown: 1,
      min: 0,
      max: 1000,
      source: 'estimate: half a metre within a panel, up to 4 m to the rear',
    },
    colour: { as: 'text', about: 'colour letters as IEC 60757, base/stripe: RD, BK/YE' },
    core: { as: 'word', words: ['copper'], about: 'material of the core', default: 'copper', source: practice },
  },
  check: ({ params, given }) => {
    if (given.has('area') && !given.has('length'))
      return [
        {
          at: ['area'],
          severity: 'warning',
          what: 'without a length the area counts for nothing: the wire is a joint without resistance',
          mend: ['add `length: …`'],
        },
      ];
    if (given.has('length') && !given.has('area'))
      return [{ at: ['length'], severity: 'warning', what: `without an area ${params.area} mm² is taken`, mend: ['add `area: …`'] }];
    return [];
  },
  terminals: () => [{ name: '1' }, { name: '2' }],
  elements: (part, at) => [{ id: '', from: '1', to: '2', ohm: ohmOf(part, at.ambient) }],
  ratings: (part, ambient) => {
    if (!part.params.length) return [];
    const { area } = part.params;
    return [
      {
        element: '',
        limit_A: steadyLimit_A(area, ambient),
        short_A: shortLimit_A(area, ambient),
        what: `wire of ${area} mm²`,
        source: steadyGuideSource,
      },
    ];
  },
  poles: ({ params }) => [{ id: '', from: '1', to: '2', symbol: 'wire', ...(params.colour && { label: params.colour }) }],
  faults: (part, context) => {
    const what = `wire ${part.id}`;
    return [
      ...seriesFaults(part.id, '', what, { open: 1, resistance: 1, comesAndGoes: 0.7 }, estimate),
      shortToGround(part.id, `${part.id}.1`, what, 0.5, estimate),
      ...shortToFeed(part.id, `${part.id}.1`, context.feed, what, 0.1, estimate),
      leakToGround(part.id, `${part.id}.1`, what, 0.2, estimate),
    ];
  },
  access: () => accessOf(10, 'in the harness'),
});

function ohmOf(part: Part<{ readonly length: number | undefined; readonly area: number }>, ambient: number): number {
  const { length, area } = part.params;
  return length ? wireResistance(length, area, ambient) : 0;
}

/**
 * A wire put on the wrong terminal: `W9.2 on R1.1`. It is not among a wire's listed faults, since there are as many as
 * terminals; who reads a phrase asks for it by name.
 *
 * @param terminal global name of where the end now is; the caller has checked that it exists
 */
export function attachFault(wireId: string, end: 1 | 2, terminal: string): FaultMode {
  return {
    subject: `${wireId}.${end}`,
    words: `on ${terminal}`,
    text: `end ${end} of wire ${wireId} is fastened to ${terminal}`,
    weight: 0.05,
    source: estimate,
    changes: () => [{ do: 'attach', end, terminal }],
  };
}
