import { type KeySwitch, keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Network } from './network.ts';
import { memberOf } from './reading.ts';

/** The circuit's key switch as it turns with the faults of the network; undefined where it is unplugged, or there is none. */
export function turnedSwitch(network: Network): KeySwitch | undefined {
  const lock = keySwitchOf(network.circuit);
  const part = lock && memberOf(network, lock.part.id)?.part;
  return part && { part, model: part.kind.key!(part) };
}
