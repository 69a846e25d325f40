import { fastened } from '../diagnose/exchange.ts';
import type { Observable } from '../diagnose/finding.ts';
import { type Around, type Bench, findingsOf } from './bench.ts';
import { Chance, mixedSeed } from './chance.ts';
import { findingOf, isAmiss, noticeable } from './noticed.ts';
import type { Came } from './update.ts';

/** How often a loose joint shows itself when it is moved (estimate). */
const shows = 0.75;

/** The part, its plug and each wire at it moved, while somebody watches. */
export function wiggled({ hidden }: Around, bench: Bench, id: string): Came {
  const { circuit, faults, seed } = hidden;
  if (!circuit.parts.has(id)) return { said: `There is no ${id} here.`, refused: true };
  const near = fastened(circuit, id);
  const loose = faults.some((f) => f.mode.sometimes && !bench.scene.swapped.includes(f.part) && (f.part === id || near.has(f.part)));
  const outcome = loose && new Chance(mixedSeed('wiggle', seed, bench.handled, id)).next() < shows ? 'changes' : 'no change';
  const observable: Observable = { of: 'touch', part: id, how: 'wiggled' };
  const finding = findingOf(circuit, bench.scene, observable, { outcome });
  return { said: `${finding.phrase}.`, figure: outcome, findings: [finding] };
}

/**
 * Another part: for a try (`swap`, the old one goes back in) or for good (`repair`, paid for). What the driver could
 * notice is tried again, and the outcome told as a finding.
 */
export function exchanged({ hidden, predictor }: Around, bench: Bench, id: string, how: 'swap' | 'repair'): Came {
  const { circuit, tools } = hidden;
  const part = circuit.parts.get(id);
  if (!part) return { said: `There is no ${id} here.`, refused: true };
  if (how === 'swap' && part.kind.key && !tools.includes('donor-switch'))
    return { said: 'There is no known good switch at hand.', refused: true };
  if (how === 'swap' && !part.kind.key && !part.kind.varies?.includes('state'))
    return { said: `Nothing like ${id} is at hand to try; repair it, or measure it.`, refused: true };
  const gone = (list: readonly string[]) => hidden.faults.filter((f) => !list.includes(f.part));
  const before = gone(bench.scene.swapped);
  const after = gone([...bench.scene.swapped, id]);
  const sound = !noticeable(predictor, after).some(isAmiss);
  const same = after.length === before.length;
  const outcome = same ? 'no change' : sound ? 'cured' : 'changes';
  // A second repair speaks of what the first one left; a finding is told of the vehicle as it came in.
  const isFirst = bench.scene.swapped.length === 0 && findingsOf(hidden, bench).length > 0;
  const observable: Observable = { of: 'exchange', part: id, how: how === 'swap' ? 'swapped' : 'replaced' };
  const finding = findingOf(circuit, { ...bench.scene, bridged: [], apart: [] }, observable, { outcome });
  const scene = how === 'repair' ? { ...bench.scene, swapped: [...new Set([...bench.scene.swapped, id])] } : bench.scene;
  return { said: `${finding.phrase}.`, figure: outcome, scene, findings: isFirst ? [finding] : [] };
}
