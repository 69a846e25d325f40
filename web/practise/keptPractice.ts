import type { Action } from '../../src/practice/action.ts';
import type { Job } from '../session/session.ts';
import type { Begun, Which } from './practiseCalls.ts';

/** What the Practise view keeps with a job. The fault is not in it: seed and candidate find it again, a file's stays sealed. */
export type KeptPractice = {
  readonly which: Which;
  readonly begun?: Begun | undefined;
  readonly actions: readonly Action[];
  /** Hints as they were given, by the number of the action. */
  readonly hints: readonly { readonly after: number; readonly text: string }[];
  /** Of this sitting: its result is counted once, in whichever tab it ends. */
  readonly ticket: string;
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

/** The set of an instructor that this job works through; sealed, as its file is. */
export const setName = 'practise-set';

export function keptSet(job: Job): string {
  const held = job.more[setName];
  return typeof held === 'object' && held !== null && 'file' in held && typeof held.file === 'string' ? held.file : '';
}
