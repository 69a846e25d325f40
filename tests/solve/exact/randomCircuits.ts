import fc from 'fast-check';
import type { Circuit } from '../../../src/circuit/circuit.ts';
import type { Law } from '../../../src/circuit/element.ts';
import { filament, junction, running, steadyDraw, zenerJunction } from '../../../src/circuit/laws.ts';
import { current, follows, madeCircuit, ohms, source } from './madeCircuit.ts';

/** A circuit as a list, so that a law can be put to a changed copy of it. Points are numbers, 0 the body. */
export type Sketch = {
  readonly points: number;
  readonly resistors: readonly { readonly from: number; readonly to: number; readonly ohm: number }[];
  readonly supplies: readonly { readonly plus: number; readonly minus: number; readonly volt: number; readonly ohm: number }[];
  readonly currents: readonly { readonly into: number; readonly outOf: number; readonly ampere: number }[];
  readonly laws: readonly { readonly from: number; readonly to: number; readonly law: Law; readonly what: string }[];
};

export function built(
  sketch: Sketch,
  name = (letter: string, k: number) => `${letter}${k}`,
  order = <T>(list: readonly T[]) => list,
): Circuit {
  const at = (point: number) => (point === 0 ? '0' : name('p', point));
  return madeCircuit(
    order([
      ...sketch.supplies.map((s, k) => [source(name('G', k), s.volt, s.ohm), at(s.plus), at(s.minus)] as const),
      ...sketch.resistors.map((r, k) => [ohms(name('R', k), r.ohm), at(r.from), at(r.to)] as const),
      ...sketch.currents.map((c, k) => [current(name('I', k), c.ampere), at(c.into), at(c.outOf)] as const),
      ...sketch.laws.map((l, k) => [follows(name('E', k), l.law), at(l.from), at(l.to)] as const),
    ]),
  );
}

type Range = { readonly least: number; readonly most: number };

/** Evenly over the decades, two digits. */
export const ohmIn = ({ least, most }: Range) =>
  fc
    .tuple(fc.integer({ min: 10, max: 99 }), fc.integer({ min: Math.round(Math.log10(least)), max: Math.round(Math.log10(most)) - 1 }))
    .map(([digits, decade]) => Number(`${digits}e${decade - 1}`));

const volt = fc.integer({ min: 1, max: 240 }).map((v) => v / 10);
const watt = fc.constantFrom(1.2, 5, 21, 55);
const ampere = fc.constantFrom(0.004, 0.3, 2, 8);

/** Lamps, motors, modules, and junctions either way round. */
export const anyLaw: fc.Arbitrary<{ law: Law; what: string }> = fc.oneof(
  fc.tuple(watt, fc.constantFrom(6, 12, 24)).map(([w, v]) => ({ law: filament(w, v), what: `filament ${w} W ${v} V` })),
  ampere.map((a) => ({ law: steadyDraw(a), what: `draw ${a} A` })),
  ampere.map((a) => ({ law: running(a, 12, 5, 0.2), what: `motor ${a} A` })),
  fc
    .tuple(fc.constantFrom(0.2, 0.6, 2), fc.constantFrom(0.001, 0.05, 10))
    .map(([v, r]) => ({ law: junction(v, r), what: `junction ${v} V ${r} Ω` })),
  fc.constantFrom(5, 13, 36).map((v) => ({ law: zenerJunction(0.6, v, 0.05), what: `zener ${v} V` })),
);

export type Wanted = {
  readonly points: number;
  readonly ohm: Range;
  readonly supplies: number;
  readonly currents: number;
  readonly laws: number;
};

/**
 * Random circuits in which every point has a path over resistors to the body; supplies stand between a point of their
 * own and the body, so that exact ones never make a loop.
 */
export function sketches({ points, ohm, supplies, currents, laws }: Wanted): fc.Arbitrary<Sketch> {
  return fc.integer({ min: 3, max: points }).chain((many) => {
    const point = fc.nat(many - 1);
    return fc.record({
      points: fc.constant(many),
      resistors: fc
        .tuple(
          fc.tuple(...Array.from({ length: many - 1 }, (_, k) => fc.tuple(fc.nat(k), ohmIn(ohm)))),
          fc.array(fc.tuple(point, point, ohmIn(ohm)), { maxLength: many }),
        )
        .map(([tree, more]) => [
          ...tree.map(([to, r], k) => ({ from: k + 1, to, ohm: r })),
          ...more.filter(([a, b]) => a !== b).map(([from, to, r]) => ({ from, to, ohm: r })),
        ]),
      supplies: fc
        .uniqueArray(fc.tuple(fc.integer({ min: 1, max: many - 1 }), volt, fc.constantFrom(0, 0.006, 0.5)), {
          selector: ([plus]) => plus,
          minLength: Math.min(1, supplies),
          maxLength: supplies,
        })
        .map((list) => list.map(([plus, v, r]) => ({ plus, minus: 0, volt: v, ohm: r }))),
      currents: fc
        .array(fc.tuple(point, point, fc.integer({ min: 1, max: 100 })), { maxLength: currents })
        .map((list) => list.filter(([a, b]) => a !== b).map(([into, outOf, a]) => ({ into, outOf, ampere: a / 10 }))),
      laws: fc
        .array(fc.tuple(point, point, anyLaw), { minLength: Math.min(1, laws), maxLength: laws })
        .map((list) => list.filter(([a, b]) => a !== b).map(([from, to, { law, what }]) => ({ from, to, law, what }))),
    });
  });
}
