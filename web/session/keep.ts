import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { keptForm, readKept, type Unread } from './keptJob.ts';
import type { Job } from './session.ts';

/** A kept job. `revision` rises by one with every saving, in whichever tab. */
export type KeptJob = { readonly id: string; readonly revision: number; readonly saved: number; readonly job: Job };

interface Shelf extends DBSchema {
  jobs: { key: string; value: KeptJob & { readonly form: number }; indexes: { saved: number } };
}

/** Thrown into nobody's face: somebody else saved the job since it was read. */
export type Saved = { readonly ok: true; readonly revision: number } | { readonly ok: false; readonly theirs: KeptJob };

/** Where jobs are kept between visits. Without a database (some browsers, some files) it says why and keeps nothing. */
export type Shelving = {
  readonly list: () => Promise<readonly KeptJob[]>;
  /** Records that are no job to this program; they stay as they are. */
  readonly unread: () => Promise<readonly Unread[]>;
  readonly read: (id: string) => Promise<KeptJob | undefined>;
  /** Rejects where the browser refuses: no room, or the shelf taken away. @param based revision that the job was read or last saved at; 0 for a new one */
  readonly save: (job: Job, based: number) => Promise<Saved>;
  readonly drop: (id: string) => Promise<void>;
  /** Why nothing is kept here; absent where jobs are kept. */
  readonly forgets?: string;
};

/**
 * Opens the shelf. A save compares the revision within one transaction, so two tabs can never overwrite each other
 * unseen: the second one gets the first one's job back and has to decide.
 */
export async function openShelf(now: () => number, name = 'detent'): Promise<Shelving> {
  let base: IDBPDatabase<Shelf>;
  try {
    base = await openDB<Shelf>(name, 1, {
      upgrade(opened) {
        opened.createObjectStore('jobs', { keyPath: 'id' }).createIndex('saved', 'saved');
      },
    });
  } catch (error) {
    return forgetful(error);
  }
  const all = async () => (await base.getAll('jobs')).map(readKept);
  return {
    list: async () => (await all()).flatMap((read) => (read.ok ? [read.kept] : [])).sort((a, b) => b.saved - a.saved),
    unread: async () => (await all()).flatMap((read) => (read.ok ? [] : [read.unread])),
    read: async (id) => {
      const read = readKept(await base.get('jobs', id));
      return read.ok ? read.kept : undefined;
    },
    save: async (job, based) => {
      const task = base.transaction('jobs', 'readwrite');
      const there = await task.store.get(job.id);
      if ((there?.revision ?? 0) !== based && there !== undefined) {
        await task.done;
        return { ok: false, theirs: there };
      }
      const revision = based + 1;
      // Both are awaited together: a refusal for want of room comes with the transaction, not with the put.
      await Promise.all([task.store.put({ id: job.id, form: keptForm, revision, saved: now(), job }), task.done]);
      return { ok: true, revision };
    },
    drop: (id) => base.delete('jobs', id),
  };
}

function forgetful(error: unknown): Shelving {
  const isNewer = error instanceof DOMException && error.name === 'VersionError';
  return {
    forgets: isNewer ? 'the jobs on this machine were kept by a newer Detent' : 'this browser does not let the page keep anything',
    list: async () => [],
    unread: async () => [],
    read: async () => undefined,
    save: async (_job, based) => ({ ok: true, revision: based + 1 }),
    drop: async () => undefined,
  };
}
