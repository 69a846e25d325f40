import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Job } from './session.ts';

/** A kept job. `revision` rises by one with every saving, in whichever tab. */
export type KeptJob = { readonly id: string; readonly revision: number; readonly saved: number; readonly job: Job };

interface Shelf extends DBSchema {
  jobs: { key: string; value: KeptJob; indexes: { saved: number } };
}

/** Thrown into nobody's face: somebody else saved the job since it was read. */
export type Saved = { readonly ok: true; readonly revision: number } | { readonly ok: false; readonly theirs: KeptJob };

/** Where jobs are kept between visits. Without a database (some browsers, some files) it says so once and keeps nothing. */
export type Shelving = {
  readonly list: () => Promise<readonly KeptJob[]>;
  readonly read: (id: string) => Promise<KeptJob | undefined>;
  /** @param based revision that the job was read or last saved at; 0 for a new one */
  readonly save: (job: Job, based: number) => Promise<Saved>;
  readonly drop: (id: string) => Promise<void>;
  readonly keeps: boolean;
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
  } catch {
    return forgetful();
  }
  return {
    keeps: true,
    list: async () => (await base.getAllFromIndex('jobs', 'saved')).reverse(),
    read: (id) => base.get('jobs', id),
    save: async (job, based) => {
      const task = base.transaction('jobs', 'readwrite');
      const there = await task.store.get(job.id);
      if ((there?.revision ?? 0) !== based && there !== undefined) {
        await task.done;
        return { ok: false, theirs: there };
      }
      const revision = based + 1;
      await task.store.put({ id: job.id, revision, saved: now(), job });
      await task.done;
      return { ok: true, revision };
    },
    drop: (id) => base.delete('jobs', id),
  };
}

function forgetful(): Shelving {
  return {
    keeps: false,
    list: async () => [],
    read: async () => undefined,
    save: async (_job, based) => ({ ok: true, revision: based + 1 }),
    drop: async () => undefined,
  };
}
