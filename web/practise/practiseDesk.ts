import { type AskedOf, asking } from '../askWorker.ts';
import type { PractiseCalls } from './practiseCalls.ts';
import PractiseWorker from './practiseWorker.ts?worker';

let worker: AskedOf<PractiseCalls> | undefined;

/** The worker of the Practise view, started by the first question. The answer of an exercise lives there and nowhere else. */
export function askPractise<N extends keyof PractiseCalls>(name: N, takes: PractiseCalls[N]['takes']): Promise<PractiseCalls[N]['gives']> {
  worker ??= asking<PractiseCalls>(new PractiseWorker());
  return worker.ask(name, takes);
}
