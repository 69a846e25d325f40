import type { Answer, Calls, Name } from './calls.ts';
import SolveWorker from './solveWorker.ts?worker';

export type Asked = { ask: <N extends Name>(name: N, takes: Calls[N]['takes']) => Promise<Calls[N]['gives']>; end: () => void };

/** One worker; answers are matched to questions by number. A crash of the worker rejects all that wait. */
export function askWorker(worker: Worker = new SolveWorker()): Asked {
  const waiting = new Map<number, { done: (gives: never) => void; fail: (e: Error) => void }>();
  let last = 0;
  worker.onmessage = ({ data }: MessageEvent<Answer>) => {
    const asked = waiting.get(data.id);
    waiting.delete(data.id);
    if (data.ok) asked?.done(data.gives as never);
    else asked?.fail(new Error(data.message));
  };
  worker.onerror = (e) => {
    for (const { fail } of waiting.values()) fail(new Error(e.message));
    waiting.clear();
  };
  return {
    ask: (name, takes) =>
      new Promise((done, fail) => {
        waiting.set(++last, { done, fail });
        worker.postMessage({ id: last, name, takes });
      }),
    end: () => worker.terminate(),
  };
}
