import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { bridged } from '../parts/shared/shortFaults.ts';
import type { PartFault } from './faultModes.ts';

/**
 * Tracking between neighbours in the key switch: burnt grease, copper dust and water join outlets that ought never to
 * meet. Neighbours are taken in the order in which the file names them, since nothing says how the terminals sit.
 */
export function trackingModes(circuit: Circuit): readonly PartFault[] {
  const lock = keySwitchOf(circuit);
  if (!lock) return [];
  const terminals = [...new Set(lock.model.contacts.flatMap((c) => c.id.split('-')))];
  const joined = new Set(lock.model.contacts.map((c) => c.id));
  const pairs = terminals.flatMap((a, k) => terminals.slice(k + 1).map((b) => [a, b] as const));
  return pairs
    .filter(([a, b]) => !joined.has(`${a}-${b}`) && !joined.has(`${b}-${a}`))
    .map(([a, b]) => ({ part: lock.part.id, mode: bridged(lock.part.id, a, b, 'terminals', 0.1, 'estimate') }));
}
