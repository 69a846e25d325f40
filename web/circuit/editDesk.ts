import { type AskedOf, asking } from '../askWorker.ts';
import type { EditCalls } from './editCalls.ts';
import EditWorker from './editWorker.ts?worker';

let worker: AskedOf<EditCalls> | undefined;

/** The worker of the Circuit view, started by the first question. Typing never waits for a solver that is busy. */
export function askEdit<N extends keyof EditCalls>(name: N, takes: EditCalls[N]['takes']): Promise<EditCalls[N]['gives']> {
  worker ??= asking<EditCalls>(new EditWorker());
  return worker.ask(name, takes);
}
