import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { loadsOf } from '../solve/loads.ts';
import { currentPaths } from '../solve/paths.ts';
import { stagesOf } from './candidates.ts';
import { minutesPerMoney } from './costs.ts';
import type { Hypothesis } from './hypotheses.ts';
import type { Predictor } from './predict.ts';

/** Minutes of two ways of working without the search, to compare it with. */
export type ByHand = { readonly halfSplit: number; readonly swapFirst: number };

/** Minutes for a reading at a place whose access is not known (estimate). */
const reading_min = 4;
/** Hands-on minutes to change a key switch (price guides: 1.5 to 3 h; estimate), and minutes that a unit of money stands for. */
const change_min = 90;

/**
 * What the same fault costs by two habits: reading volts at the middle of the dead load's path and halving what is
 * left; and exchanging the key switch first, then halving when that was not it.
 *
 * A path of n pieces takes log2(n) readings at the mean access of its places. Estimates, the same for every fault.
 */
export function byHand(predictor: Predictor, truth: Hypothesis): ByHand {
  const { circuit } = predictor;
  const lock = keySwitchOf(circuit)?.part;
  const halves = halfSplit(predictor, truth);
  const price = lock ? (lock.kind.access(lock).price ?? 60) : 0;
  const change = lock ? change_min + price * minutesPerMoney : 0;
  const isSwitch = truth.faults.every((f) => f.part === lock?.id);
  return { halfSplit: halves, swapFirst: change + (isSwitch ? 0 : halves) };
}

function halfSplit(predictor: Predictor, truth: Hypothesis): number {
  const { vehicles, circuit } = predictor;
  const loads = new Map(loadsOf(circuit.parts.values()).map((p) => [p.id, p]));
  for (const stage of stagesOf(predictor))
    for (const { observable, scene } of stage.looks) {
      if (observable.of !== 'load') continue;
      const [healthy, now] = [predictor.expected([], { scene, observable }), predictor.expected(truth.faults, { scene, observable })];
      if (JSON.stringify(healthy) === JSON.stringify(now) || !loads.has(observable.load)) continue;
      const { feed, return: back } = currentPaths(vehicles.answer(vehicles.healthy, scene), loads.get(observable.load)!);
      const terminals = [...feed.terminals, ...back.terminals];
      const owners = new Set(terminals.map((t) => t.slice(0, Math.max(0, t.lastIndexOf('.')))));
      const places = [...owners].flatMap((id) => circuit.parts.get(id) ?? []);
      const minutes = places.filter((p) => !p.kind.isWire).map((p) => p.minutes ?? p.kind.access(p).minutes);
      const mean = minutes.length === 0 ? reading_min : minutes.reduce((a, b) => a + b, 0) / minutes.length;
      return Math.max(1, Math.ceil(Math.log2(Math.max(2, terminals.length)))) * mean;
    }
  return reading_min;
}
