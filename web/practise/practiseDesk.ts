import { type AskedOf, asking } from '../askWorker.ts';
import type { PractiseCalls, Working } from './practiseCalls.ts';
import PractiseWorker from './practiseWorker.ts?worker';

let worker: AskedOf<PractiseCalls> | undefined;

type Final<N extends keyof PractiseCalls> = Exclude<PractiseCalls[N]['gives'], Working>;

/**
 * The worker of the Practise view, started by the first question. The answer of an exercise lives there and nowhere else.
 * @param heard what it is at, in words, while the answer is under way
 */
export function askPractise<N extends keyof PractiseCalls>(
  name: N,
  takes: PractiseCalls[N]['takes'],
  heard?: (working: string) => void,
): Promise<Final<N>> {
  worker ??= asking<PractiseCalls>(new PractiseWorker());
  return worker.ask(name, takes, (part) => heard?.((part as Working).working)) as Promise<Final<N>>;
}

/** Ends whatever is under way: the worker is let go, and the next question starts another, which finds everything again. */
export function stopPractise(): void {
  worker?.end();
  worker = undefined;
}
