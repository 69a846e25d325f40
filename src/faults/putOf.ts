import type { Put } from '../play/moment.ts';
import { changesOf, type Fault } from './fault.ts';

/** Faults as a play takes them: those that come and go are drawn whenever something is moved, each for its share of the time. */
export function putOf(faults: readonly Fault[]): Put {
  return {
    changes: changesOf(faults.filter((f) => !f.mode.sometimes)),
    sometimes: faults.filter((f) => f.mode.sometimes).map((f) => ({ share: Math.min(1, Math.max(0, f.detail)), changes: changesOf([f]) })),
  };
}
