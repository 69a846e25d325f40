import type { Action } from '../../src/practice/action.ts';
import type { Result } from '../../src/practice/progress.ts';
import type { Job } from '../session/session.ts';
import type { Begun, Which } from './practiseCalls.ts';

/** What the Practise view keeps with a job. The fault is not in it: seed and candidate find it again, a file's stays sealed. */
export type KeptPractice = {
  readonly which: Which;
  readonly begun?: Begun | undefined;
  readonly actions: readonly Action[];
  /** Hints as they were given, by the number of the action. */
  readonly hints: readonly { readonly after: number; readonly text: string }[];
  /** The end was counted among the results. */
  readonly counted?: boolean | undefined;
};

export const practiceName = 'practise';

/** Undefined where the job has no exercise, or holds something else under its name. */
export function keptPractice(job: Job): KeptPractice | undefined {
  const held = job.more[practiceName];
  if (typeof held !== 'object' || held === null) return undefined;
  const { which, actions, hints } = held as Partial<KeptPractice>;
  return which && Array.isArray(actions) && Array.isArray(hints) ? (held as KeptPractice) : undefined;
}

const progressName = 'practise-progress';

/** Results so far, kept with the job and exportable. */
export function resultsOf(job: Job): readonly Result[] {
  const held = job.more[progressName];
  return Array.isArray(held) ? (held as readonly Result[]) : [];
}
export const progressKey = progressName;
