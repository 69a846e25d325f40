import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { network } from '../solve/network.ts';
import { operatingPoint } from '../solve/operatingPoint.ts';
import { currentPaths } from '../solve/paths.ts';

/**
 * Loads by which a circuit tells its story at first sight: what cranks the engine, what it needs to run, and what shows
 * the charge (its current comes back through a part that the engine drives). Empty for a circuit without an engine.
 *
 * Cost: one solve for each key position.
 */
export function storyLoads(circuit: Circuit): readonly string[] {
  const { engine } = circuit;
  const lock = keySwitchOf(circuit);
  if (!engine || !lock) return [];
  const own = [engine.crank, ...engine.spark, ...engine.fuel, ...(engine.stops ?? [])];
  const net = network(circuit);
  const driven = new Set(engine.drives);
  const isDriven = (terminal: string) => driven.has(terminal.slice(0, terminal.lastIndexOf('.')));
  const shown = new Set<string>();
  for (const { keyAngle } of keyStretches(lock.model)) {
    const at = operatingPoint(net, { ...restScene(circuit), key: { angle: keyAngle, came: 'up', in: true } });
    for (const part of circuit.parts.values()) {
      if (!part.isLoad || shown.has(part.id) || driven.has(part.id)) continue;
      if (currentPaths(at, part).return.terminals.some(isDriven)) shown.add(part.id);
    }
  }
  return [...new Set([...own, ...shown])].filter((id) => circuit.parts.has(id));
}
