import { loadsAt } from './loads.ts';
import type { OperatingPoint } from './operatingPoint.ts';

/** A wire, contact, fuse or relay that carries more than its guide value: both numbers, and where the limit comes from. */
export type Overload = {
  readonly code: 'over-rating';
  readonly part: string;
  readonly element: string;
  readonly what: string;
  /** A */
  readonly value: number;
  /** A */
  readonly limit: number;
  readonly source: string;
};

/** Every guide value that is passed at this instant, in file order. While the starter turns, the limits for some seconds count. */
export function overloads(at: OperatingPoint): readonly Overload[] {
  const crank = at.network.circuit.engine?.crank;
  const cranks = crank !== undefined && loadsAt(at).some((l) => l.id === crank && l.verdict !== 'dead');
  return at.network.members.flatMap(({ part }) =>
    (part.kind.ratings?.(part, at.network.circuit.ambient) ?? []).flatMap((rating): Overload[] => {
      const element = rating.element === '' ? part.id : `${part.id}.${rating.element}`;
      const k = at.network.branchOf.get(element);
      const value = k === undefined ? 0 : Math.abs(at.amperes[k]!);
      const limit = cranks ? (rating.short_A ?? rating.limit_A) : rating.limit_A;
      return value <= limit
        ? []
        : [{ code: 'over-rating', part: part.id, element, what: rating.what, value, limit, source: rating.source }];
    }),
  );
}
