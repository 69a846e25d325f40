import type { Calls } from './calls.ts';
import SolveWorker from './solveWorker.ts?worker';

type Table = Readonly<Record<string, { takes: unknown; gives: unknown }>>;
type Answer = { readonly id: number } & (
  | { readonly ok: true; readonly gives: unknown; readonly part?: boolean }
  | { readonly ok: false; readonly message: string }
);

/** Questions to one worker, by the table of its calls. `part` hears what is known before the whole is. */
export type AskedOf<C extends Table> = {
  ask: <N extends keyof C>(name: N, takes: C[N]['takes'], part?: (gives: C[N]['gives']) => void) => Promise<C[N]['gives']>;
  /** Ends the worker; what was asked is rejected. */
  end: () => void;
};
export type Asked = AskedOf<Calls>;

export const askWorker = (): Asked => asking<Calls>(new SolveWorker());

/** Answers are matched to questions by number. A crash of the worker rejects all that wait. */
export function asking<C extends Table>(worker: Worker): AskedOf<C> {
  const waiting = new Map<
    number,
    { done: (gives: never) => void; fail: (e: Error) => void; part?: ((gives: never) => void) | undefined }
  >();
  let last = 0;
  const failAll = (message: string) => {
    for (const { fail } of waiting.values()) fail(new Error(message));
    waiting.clear();
  };
  worker.onmessage = ({ data }: MessageEvent<Answer>) => {
    const asked = waiting.get(data.id);
    if (data.ok && data.part) {
      asked?.part?.(data.gives as never);
      return;
    }
    waiting.delete(data.id);
    if (data.ok) asked?.done(data.gives as never);
    else asked?.fail(new Error(data.message));
  };
  worker.onerror = (e) => failAll(e.message);
  return {
    ask: (name, takes, part) =>
      new Promise((done, fail) => {
        waiting.set(++last, { done, fail, part });
        worker.postMessage({ id: last, name, takes });
      }),
    end: () => {
      worker.terminate();
      failAll('stopped');
    },
  };
}
