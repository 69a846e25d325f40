import { type DBSchema, openDB } from 'idb';
import type { KeptJob, Taken } from './keep.ts';
import { keptForm, readKept } from './keptJob.ts';
import type { Job } from './session.ts';

/**
 * A state of a job, written down ahead of its saving. `desk` is the page that wrote it, `step` rises with every state of that page,
 * `based` is the revision of the shelf that the page knew.
 */
export type Noted = {
  readonly id: string;
  readonly desk: string;
  readonly step: number;
  readonly based: number;
  readonly saved: number;
  readonly form: number;
  readonly job: Job;
};

interface Ahead extends DBSchema {
  ahead: { key: [string, string]; value: Noted };
}

/** States written at once; while more are under way only the latest of each job waits, so that a slow disk is not buried. */
const most = 16;

/**
 * Writes down every state at once, in the very task that made it: one put that asks nothing and waits for nothing. A saving compares
 * revisions first, and the browser may be killed between its question and its answer; what was written ahead is with the browser's own
 * process or the system by then. `relaxed`: it need not outlive the machine, and a flush for every keystroke would make it late.
 */
export type Journal = {
  readonly note: (job: Job, based: number) => void;
  /** Steps of this page that a state of a job includes; empty when it was not written ahead. */
  readonly includedIn: (job: Job) => Taken;
  /** All that is written down, of every page. What cannot be read is left out: it was never the only copy of a job. */
  readonly all: () => Promise<readonly Noted[]>;
  /** What this page noted of a job is included in a saving, or given up. */
  readonly forget: (id: string) => Promise<void>;
  /** Takes away what another page noted, unless it has noted something newer since. */
  readonly clear: (noted: Noted) => Promise<void>;
};

export async function openJournal(now: () => number, desk: string, name: string): Promise<Journal> {
  const base = await openDB<Ahead>(name, 1, {
    upgrade(opened) {
      opened.createObjectStore('ahead', { keyPath: ['id', 'desk'] });
    },
  });
  const steps = new WeakMap<Job, number>();
  let step = 0;
  const put = async (noted: Noted) => {
    try {
      const task = base.transaction('ahead', 'readwrite', { durability: 'relaxed' });
      const done = Promise.all([task.store.put(noted), task.done]);
      task.commit();
      await done;
    } catch {
      // Not said here: the saving that follows is refused for the same reason, and says so.
    }
  };
  const write = paced(put);
  return {
    note: (job, based) => {
      step++;
      steps.set(job, step);
      write({ id: job.id, desk, step, based, saved: now(), form: keptForm, job });
    },
    includedIn: (job) => {
      const at = steps.get(job);
      return at === undefined ? {} : { [desk]: at };
    },
    all: async () => (await base.getAll('ahead')).filter(isSound),
    forget: (id) => base.delete('ahead', [id, desk]),
    clear: async (noted) => {
      const task = base.transaction('ahead', 'readwrite');
      const key: [string, string] = [noted.id, noted.desk];
      const there = await task.store.get(key);
      if (there?.step === noted.step) await task.store.delete(key);
      await task.done;
    },
  };
}

/** Writes in the very task that asks, up to `most` at once; then the last state of every job waits, in the order in which the jobs came. */
export function paced(put: (noted: Noted) => Promise<void>): (noted: Noted) => void {
  let underWay = 0;
  const waiting = new Map<string, Noted>();
  const write = async (noted: Noted): Promise<void> => {
    underWay++;
    await put(noted);
    underWay--;
    const next = waiting.values().next();
    if (next.done) return;
    waiting.delete(next.value.id);
    void write(next.value);
  };
  return (noted) => {
    if (underWay < most) void write(noted);
    else waiting.set(noted.id, noted);
  };
}

function isSound(noted: Noted): boolean {
  return readKept({ ...noted, revision: noted.based }).ok && [noted.step, noted.based, noted.saved].every(Number.isFinite);
}

/** What a job on the shelf and all that was written ahead of it come to. */
export type Standing = {
  /** The job as it was last seen by the page that wrote it. */
  readonly kept: KeptJob | undefined;
  /** States that follow from nothing that stands here: another page saved the job meanwhile. Each needs a place of its own. */
  readonly astray: readonly Noted[];
  /** Already included. */
  readonly spent: readonly Noted[];
};

/** @param noted all that was written ahead of this one job: the last state of each page */
export function standing(kept: KeptJob | undefined, noted: readonly Noted[]): Standing {
  const isSpent = (n: Noted) => n.step <= (kept?.taken?.[n.desk] ?? 0);
  // The page that saved last goes on from its own saving, though it may not have heard of it yet.
  const follows = (n: Noted) => kept === undefined || n.based === kept.revision || n.desk === kept.desk;
  const open = noted.filter((n) => !isSpent(n)).sort((a, b) => b.saved - a.saved);
  const next = open.find(follows);
  return { kept: next ? asKept(next, kept) : kept, astray: open.filter((n) => n !== next), spent: noted.filter(isSpent) };
}

function asKept({ id, desk, step, saved, job }: Noted, kept: KeptJob | undefined): KeptJob {
  return { ...kept, id, revision: kept?.revision ?? 0, saved, job, taken: { ...kept?.taken, [desk]: step } };
}
