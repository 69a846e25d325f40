import { type AskedOf, asking } from '../askWorker.ts';
import type { EditCalls } from './editCalls.ts';
import EditWorker from './editWorker.ts?worker';

const workers = new Map<'words' | 'drawing', AskedOf<EditCalls>>();

/**
 * The workers of the Circuit view, each started by its first question. Laying out a large drawing takes longer than
 * reading its text, so it has one of its own: problems never wait for it, nor for a solver that is busy.
 */
export function askEdit<N extends keyof EditCalls>(name: N, takes: EditCalls[N]['takes']): Promise<EditCalls[N]['gives']> {
  const which = name === 'draw' || name === 'mends' || name === 'compare' ? 'drawing' : 'words';
  const worker = workers.get(which) ?? asking<EditCalls>(new EditWorker());
  workers.set(which, worker);
  return worker.ask(name, takes);
}
