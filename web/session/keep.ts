import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { type Journal, openJournal, standing } from './ahead.ts';
import { keptForm, readKept, type Unread } from './keptJob.ts';
import type { Job } from './session.ts';

/** Of what was written ahead, by page: the last step that a job includes. */
export type Taken = Readonly<Record<string, number>>;

/** A kept job. `revision` rises by one with every saving, in whichever tab. */
export type KeptJob = {
  readonly id: string;
  readonly revision: number;
  readonly saved: number;
  readonly job: Job;
  /** The page that saved it. */
  readonly desk?: string | undefined;
  readonly taken?: Taken | undefined;
};

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
  /** Writes a change down at once; it is there again after the browser was killed, though it was not saved yet. */
  readonly note: (job: Job, based: number) => void;
  /** What was noted of a job and not saved is given up. */
  readonly unnote: (id: string) => void;
  /**
   * Rejects where the browser refuses: no room, or the shelf taken away.
   *
   * @param based revision that the job was read or last saved at; 0 for a new one
   * @param taken notes that it included when it was read
   */
  readonly save: (job: Job, based: number, taken?: Taken) => Promise<Saved>;
  readonly drop: (id: string) => Promise<void>;
  /** Why nothing is kept here; absent where jobs are kept. */
  readonly forgets?: string;
};

/** Pages whose notes a kept job remembers as included; older ones have long been cleared away. */
const remembered = 8;

/**
 * Opens the shelf. A save compares the revision within one transaction, so two tabs can never overwrite each other
 * unseen: the second one gets the first one's job back and has to decide.
 *
 * @param desk unique to this page
 */
export async function openShelf(now: () => number, desk: string, name = 'detent'): Promise<Shelving> {
  let base: IDBPDatabase<Shelf>;
  let journal: Journal;
  try {
    // A database of its own: a saving that waits for an answer never holds up what is written ahead.
    [base, journal] = await Promise.all([opened(name), openJournal(now, desk, `${name}-ahead`)]);
    await tidied(base, journal);
  } catch (error) {
    return forgetful(error);
  }
  const all = async () => (await base.getAll('jobs')).map(readKept);
  const readable = async () => (await all()).flatMap((read) => (read.ok ? [read.kept] : []));
  const last = new Map<string, number>();
  return {
    list: async () => {
      const [kept, noted] = await Promise.all([readable(), journal.all()]);
      const ids = new Set([...kept, ...noted].map((k) => k.id));
      const stands = [...ids].map(
        (id) =>
          standing(
            kept.find((k) => k.id === id),
            noted.filter((n) => n.id === id),
          ).kept,
      );
      return stands.filter((k) => k !== undefined).sort((a, b) => b.saved - a.saved);
    },
    unread: async () => (await all()).flatMap((read) => (read.ok ? [] : [read.unread])),
    read: async (id) => {
      const [record, noted] = await Promise.all([base.get('jobs', id), journal.all()]);
      const read = readKept(record);
      if (record !== undefined && !read.ok) return undefined;
      return standing(
        read.ok ? read.kept : undefined,
        noted.filter((n) => n.id === id),
      ).kept;
    },
    note: (job, based) => {
      journal.note(job, based);
      last.set(job.id, journal.includedIn(job)[desk]!);
    },
    unnote: (id) => void journal.forget(id).catch(() => undefined),
    save: async (job, based, taken) => {
      const included = journal.includedIn(job);
      const task = base.transaction('jobs', 'readwrite');
      const there = await task.store.get(job.id);
      if ((there?.revision ?? 0) !== based && there !== undefined) {
        await task.done;
        return { ok: false, theirs: there };
      }
      const revision = based + 1;
      const all = takenWith({ ...there?.taken, ...taken }, desk, included[desk]);
      const record = { id: job.id, form: keptForm, revision, saved: now(), job, desk, taken: all };
      // Both are awaited together: a refusal for want of room comes with the transaction, not with the put.
      await Promise.all([task.store.put(record), task.done]);
      // With a later state written down since, there is nothing to clear away yet.
      if (included[desk] === last.get(job.id)) void journal.forget(job.id).catch(() => undefined);
      return { ok: true, revision };
    },
    drop: async (id) => {
      await base.delete('jobs', id);
      const noted = (await journal.all()).filter((n) => n.id === id);
      await Promise.all(noted.map(journal.clear));
    },
  };
}

/**
 * What a saving includes, the page that saves last: a spread would leave it where it first stood, and a page that lives
 * long would be the first to be forgotten, though it has just saved.
 */
export function takenWith(before: Taken, desk: string, step: number | undefined): Taken {
  const others = Object.entries(before).filter(([page]) => page !== desk);
  const own = step ?? before[desk];
  return Object.fromEntries([...others, ...(own === undefined ? [] : [[desk, own] as const])].slice(-remembered));
}

function opened(name: string): Promise<IDBPDatabase<Shelf>> {
  return openDB<Shelf>(name, 1, {
    upgrade(base) {
      base.createObjectStore('jobs', { keyPath: 'id' }).createIndex('saved', 'saved');
    },
  });
}

/**
 * Notes that are included are cleared away; those that follow from nothing on the shelf become jobs of their own: their page was killed
 * while it asked which of two states should stay. The id is made of the note's, so that two pages doing so at once make one job.
 */
async function tidied(base: IDBPDatabase<Shelf>, journal: Journal): Promise<void> {
  const noted = await journal.all();
  for (const id of new Set(noted.map((n) => n.id))) {
    const read = readKept(await base.get('jobs', id));
    const { astray, spent } = standing(
      read.ok ? read.kept : undefined,
      noted.filter((n) => n.id === id),
    );
    for (const { desk, saved, job } of astray) {
      const own = `${id}-${desk}`;
      await base.put('jobs', { id: own, form: keptForm, revision: 1, saved, job: { ...job, id: own } });
    }
    await Promise.all([...astray, ...spent].map(journal.clear));
  }
}

function forgetful(error: unknown): Shelving {
  const isNewer = error instanceof DOMException && error.name === 'VersionError';
  return {
    forgets: isNewer ? 'the jobs on this machine were kept by a newer Detent' : 'this browser does not let the page keep anything',
    list: async () => [],
    unread: async () => [],
    read: async () => undefined,
    note: () => undefined,
    unnote: () => undefined,
    save: async (_job, based) => ({ ok: true, revision: based + 1 }),
    drop: async () => undefined,
  };
}
