import { keySwitchOf, keyTakenOut } from '../circuit/keySwitchOf.ts';
import { ownerOf } from '../circuit/ownerOf.ts';
import type { Finding } from './finding.ts';
import { likelihood } from './likelihood.ts';
import type { Predictor } from './predict.ts';

/** How the vehicle stood after the repair. */
export type AfterRepair = {
  /** Findings that a sound vehicle would not give: a second fault is still in, and the search is open again. */
  readonly amiss: readonly Finding[];
  /** The whole position table was said to be right, and nothing that was seen says otherwise. */
  readonly tableRun: boolean;
  /** The current with the key out was read again and is as in a sound vehicle. */
  readonly keyOffRead: boolean;
};

/** A word that a sound vehicle gives less often than this is amiss (estimate). */
const amissBelow = 0.12;
/** A figure whose density is less than this share of one over the system's volts is amiss (estimate). */
const figureBelow = 0.05;

/**
 * Holds what was seen after a repair against the sound vehicle.
 *
 * @param notes lines of the repair that are no findings; `whole table run again` says that every row was right
 */
export function afterRepair(predictor: Predictor, after: readonly Finding[], notes: readonly string[]): AfterRepair {
  const amiss = after.filter((f) => {
    const sound = likelihood(f.seen, predictor.predict([], f));
    const isDensity = 'value' in f.seen && Number.isFinite(f.seen.value);
    return isDensity ? sound < figureBelow / predictor.nominal_V : sound < amissBelow;
  });
  const keyOffRead = after.some((f) => isKeyOffCurrent(predictor, f) && !amiss.includes(f));
  return { amiss, tableRun: amiss.length === 0 && notes.some((n) => /whole table/i.test(n)), keyOffRead };
}

/** The current at the battery with the key where it comes out and nothing switched on. */
function isKeyOffCurrent({ circuit }: Predictor, { observable: o, scene }: Finding): boolean {
  if (o.of !== 'amperes' || scene.engine !== 'stopped' || Object.keys(scene.hand).length > 0) return false;
  const lock = keySwitchOf(circuit);
  if (lock && scene.key?.angle !== keyTakenOut(lock.model).angle) return false;
  return circuit.parts.get(ownerOf(o.at))?.kind.supply !== undefined;
}
