import { parentPort, workerData } from 'node:worker_threads';
import { oneInput, patience_ms } from './oneInput.ts';

/** Tries inputs from one number to another and says how far it is; what is wrong is said at once. */
const { seed, from, to } = workerData as { readonly seed: number; readonly from: number; readonly to: number };
const clock = () => performance.now();
const count: Record<string, number> = {};
/** How often it says where it is. The overseer counts from there when nothing is heard any more. */
const beat_ms = 200;
let said = clock();
let most_MB = 0;

for (let number = from; number < to; number++) {
  if (clock() - said > beat_ms) {
    said = clock();
    most_MB = Math.max(most_MB, process.memoryUsage().heapUsed / 2 ** 20);
    parentPort?.postMessage({ at: number, count, most_MB });
  }
  const tried = oneInput(seed, number, clock);
  count[tried.target] = (count[tried.target] ?? 0) + 1;
  const slow = tried.took_ms > patience_ms ? `took ${Math.round(tried.took_ms)} ms` : undefined;
  const wrong = tried.wrong ?? slow;
  if (wrong !== undefined) parentPort?.postMessage({ wrong, number, target: tried.target, text: tried.text });
}
parentPort?.postMessage({ at: to, count, most_MB, done: true });
