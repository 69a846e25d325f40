import type { Part, Rating } from '../circuit/part.ts';
import { remembered } from '../circuit/remembered.ts';
import { loadAt } from './loads.ts';
import type { Network } from './network.ts';
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
  const cranks = crank !== undefined && (loadAt(at, crank)?.verdict ?? 'dead') !== 'dead';
  const passed: Overload[] = [];
  for (const { part, element, branch, rating } of remembered(watched, at.network, () => watchedIn(at.network))) {
    const value = Math.abs(at.amperes[branch]!);
    const limit = cranks ? (rating.short_A ?? rating.limit_A) : rating.limit_A;
    if (value > limit) passed.push({ code: 'over-rating', part, element, what: rating.what, value, limit, source: rating.source });
  }
  return passed;
}

type Watched = { readonly part: string; readonly element: string; readonly branch: number; readonly rating: Rating };

/** Ratings do not change from instant to instant: they are collected once a network, and asked once a part. */
const watched = new WeakMap<Network, readonly Watched[]>();
const ratings = new WeakMap<Part, readonly Rating[]>();

function watchedIn({ members, branchOf, circuit }: Network): readonly Watched[] {
  return members.flatMap(({ part }) =>
    remembered(ratings, part, () => part.kind.ratings?.(part, circuit.ambient) ?? []).flatMap((rating): Watched[] => {
      const element = rating.element === '' ? part.id : `${part.id}.${rating.element}`;
      const branch = branchOf.get(element);
      return branch === undefined ? [] : [{ part: part.id, element, branch, rating }];
    }),
  );
}
