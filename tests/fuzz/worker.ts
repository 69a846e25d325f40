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

parentPort?.postMessage({ at: from, count, most_MB });
for (let number = from; number < to; number++) {
  if (clock() - said > beat_ms) {
    said = clock();
    most_MB = Math.max(most_MB, process.memoryUsage().heapUsed / 2 ** 20);
    parentPort?.postMessage({ at: number, count, most_MB });
  }
  const tried = oneInput(seed, number, clock);
  count[tried.target] = (count[tried.target] ?? 0) + 1;
  const took_ms = leastTime(number, tried.took_ms);
  const slow = took_ms > patience_ms ? `took ${Math.round(took_ms)} ms` : undefined;
  const wrong = tried.wrong ?? slow;
  if (wrong !== undefined) parentPort?.postMessage({ wrong, number, target: tried.target, text: tried.text });
}
/** A machine under load is slow now and then; an input is slow every time, and keeps the processor at work for as long. */
function leastTime(number: number, first_ms: number): number {
  let least = first_ms;
  for (let again = 0; again < 3 && least > patience_ms; again++) {
    const before = process.cpuUsage();
    const { took_ms } = oneInput(seed, number, clock);
    const { user, system } = process.cpuUsage(before);
    least = Math.min(least, took_ms, (user + system) / 1000);
  }
  return least;
}
parentPort?.postMessage({ at: to, count, most_MB, done: true });
