import type { Finding } from './finding.ts';
import { likelihood } from './likelihood.ts';
import type { Predictor } from './predict.ts';

/** How the vehicle stood after the repair. */
export type AfterRepair = {
  /** Findings that a sound vehicle would not give: a second fault is still in, and the search is open again. */
  readonly amiss: readonly Finding[];
  /** The whole position table was said to be right, or nothing is said to be wrong in any position. */
  readonly tableRun: boolean;
  /** The current with the key out was read again and is as in a sound vehicle. */
  readonly keyOffRead: boolean;
};

/** A finding that a sound vehicle gives less often than this, in comparison with its best word, is amiss. */
const amissBelow = 0.12;

/**
 * Holds what was seen after a repair against the sound vehicle.
 *
 * @param notes lines of the repair that are no findings; `whole table run again` says that every row was right
 */
export function afterRepair(predictor: Predictor, after: readonly Finding[], notes: readonly string[]): AfterRepair {
  const amiss = after.filter((f) => {
    const sound = likelihood(f.seen, predictor.predict([], f));
    return 'value' in f.seen ? sound < 0.05 / predictor.nominal_V : sound < amissBelow;
  });
  const keyOffRead = after.some((f) => f.observable.of === 'amperes' && f.scene.engine === 'stopped' && !amiss.includes(f));
  return { amiss, tableRun: amiss.length === 0 && notes.some((n) => /whole table/i.test(n)), keyOffRead };
}
