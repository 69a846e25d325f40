import { untouched } from '../circuit/scene.ts';
import type { Predictor } from './predict.ts';
import type { Candidate } from './testable.ts';

/** Why faults stay together whatever is read within reach. */
export type Reason =
  /** Not one reading of the scenes compared differs from the healthy vehicle. */
  | 'no-change'
  /** They differ from the healthy vehicle by less than the instruments tell. */
  | 'too-small'
  /** Places further away would part them. */
  | 'out-of-reach'
  | 'one-part'
  /** The fuse has opened, by itself or for a short behind it. */
  | 'blown'
  /** Next to nothing lies between them: wires, pins, closed contacts. */
  | 'one-run'
  | 'same-effect';

export type Together = { readonly reason: Reason; readonly faults: readonly string[] };

/**
 * Every fault that is not alone in its class, once, with the reason; larger groups first.
 *
 * @param read    classes by the readings within reach
 * @param best    the same once the places out of reach are brought out
 * @param touched those of whom some reading is not the very one of the healthy vehicle
 */
export function whyTogether(
  predictor: Predictor,
  read: readonly (readonly Candidate[])[],
  best: readonly (readonly Candidate[])[],
  touched: ReadonlySet<Candidate>,
): readonly Together[] {
  const finest = new Map(best.flatMap((members, k) => members.map((m) => [m, k] as const)));
  const runsOf = runsByPart(predictor);
  const found: Together[] = [];
  const tell = (reason: Reason, members: readonly Candidate[]) => {
    const faults = members.flatMap((m) => m.fault?.phrase ?? []);
    if (faults.length > 0) found.push({ reason, faults });
  };
  for (const members of read) {
    if (members.some((m) => m.fault === undefined)) {
      tell(
        'no-change',
        members.filter((m) => !touched.has(m)),
      );
      tell(
        'too-small',
        members.filter((m) => touched.has(m)),
      );
    } else if (members.length > 1) {
      const isParted = new Set(members.map((m) => finest.get(m))).size > 1;
      tell(isParted ? 'out-of-reach' : reasonOf(members, runsOf), members);
    }
  }
  return found.sort((a, b) => b.faults.length - a.faults.length);
}

function reasonOf(members: readonly Candidate[], runsOf: ReadonlyMap<string, ReadonlySet<number>>): Reason {
  const parts = new Set(members.map((m) => m.fault!.part));
  if (parts.size === 1) return 'one-part';
  if (members.some((m) => m.fault!.mode.words === 'blown')) return 'blown';
  // From one part to the next over a run that both touch; ground is no neighbourhood.
  const left = new Set(parts);
  const front = [...parts].slice(0, 1);
  for (const part of front) {
    left.delete(part);
    const own = runsOf.get(part);
    for (const other of left)
      if (own && [...(runsOf.get(other) ?? [])].some((run) => own.has(run))) {
        front.push(other);
        left.delete(other);
      }
  }
  return left.size === 0 ? 'one-run' : 'same-effect';
}

/** Less than this is no piece between two places, S: a tenth of an ohm (estimate). */
const joins_S = 10;

/** Runs of wiring that each part's pieces end at, ground left out: nodes with next to nothing between them are one run. */
function runsByPart({ vehicles }: Predictor): ReadonlyMap<string, ReadonlySet<number>> {
  const at = vehicles.answer(vehicles.healthy, untouched);
  const { branches } = at.network;
  const joined = new Map<number, number>();
  const runOf = (node: number): number => {
    const next = joined.get(node);
    return next === undefined ? node : runOf(next);
  };
  for (const [k, { from, to }] of branches.entries())
    if (from !== 0 && to !== 0 && at.siemens[k]! > joins_S && runOf(from) !== runOf(to)) joined.set(runOf(from), runOf(to));
  const runs = new Map<string, Set<number>>();
  for (const { part, from, to } of branches) {
    const own = runs.get(part) ?? new Set<number>();
    for (const node of [from, to]) if (node !== 0) own.add(runOf(node));
    runs.set(part, own);
  }
  return runs;
}
