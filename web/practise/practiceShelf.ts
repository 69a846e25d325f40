import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { ClassRow } from '../../src/practice/classSheet.ts';
import type { Result } from '../../src/practice/progress.ts';

interface Shelf extends DBSchema {
  /** One finished exercise each, in order of time. A ticket is counted once, whichever tabs show its debrief. */
  results: { key: number; value: { readonly ticket: string; readonly result: Result }; indexes: { ticket: string } };
  /** What an instructor has under way, by its name. Exercises are in it as they are written: sealed. */
  desk: { key: string; value: unknown };
}

/** What is kept of practising besides the jobs, on this machine only. */
export type PracticeShelf = {
  readonly results: () => Promise<readonly Result[]>;
  readonly add: (ticket: string, result: Result) => Promise<void>;
  /** All results, in the place of what was there. */
  readonly replace: (results: readonly Result[]) => Promise<void>;
  /** Text of the exercise set that is being put together. */
  readonly set: () => Promise<string>;
  readonly keepSet: (text: string) => Promise<void>;
  readonly sheet: () => Promise<readonly ClassRow[]>;
  readonly keepSheet: (rows: readonly ClassRow[]) => Promise<void>;
  /** Why nothing is kept beyond this visit; absent where it is. */
  readonly forgets?: string;
};

let opened: Promise<PracticeShelf> | undefined;

/** A database beside that of the jobs: progress belongs to a person, not to one vehicle on one day. */
export const practiceShelf = (): Promise<PracticeShelf> => {
  opened ??= open().catch(() => forgetful());
  return opened;
};

async function open(): Promise<PracticeShelf> {
  const base: IDBPDatabase<Shelf> = await openDB<Shelf>('detent-practice', 1, {
    upgrade(fresh) {
      fresh.createObjectStore('results', { autoIncrement: true }).createIndex('ticket', 'ticket', { unique: true });
      fresh.createObjectStore('desk');
    },
  });
  return {
    results: async () => (await base.getAll('results')).map((r) => r.result),
    add: async (ticket, result) => {
      const task = base.transaction('results', 'readwrite');
      if ((await task.store.index('ticket').getKey(ticket)) === undefined) await task.store.add({ ticket, result });
      await task.done;
    },
    replace: async (results) => {
      const task = base.transaction('results', 'readwrite');
      await task.store.clear();
      for (const result of results) await task.store.add({ ticket: crypto.randomUUID(), result });
      await task.done;
    },
    set: async () => {
      const held = await base.get('desk', 'set');
      return typeof held === 'string' ? held : '';
    },
    keepSet: async (text) => void (await base.put('desk', text, 'set')),
    sheet: async () => {
      const held = await base.get('desk', 'sheet');
      return Array.isArray(held) ? (held as readonly ClassRow[]) : [];
    },
    keepSheet: async (rows) => void (await base.put('desk', rows, 'sheet')),
  };
}

/** A browser that keeps nothing: it lasts as long as the page. */
function forgetful(): PracticeShelf {
  const counted = new Set<string>();
  let [results, set, sheet]: [readonly Result[], string, readonly ClassRow[]] = [[], '', []];
  return {
    forgets: 'this browser does not let the page keep anything: save the file before you leave',
    results: async () => results,
    add: async (ticket, result) => {
      if (!counted.has(ticket)) results = [...results, result];
      counted.add(ticket);
    },
    replace: async (all) => {
      results = all;
    },
    set: async () => set,
    keepSet: async (text) => {
      set = text;
    },
    sheet: async () => sheet,
    keepSheet: async (rows) => {
      sheet = rows;
    },
  };
}
