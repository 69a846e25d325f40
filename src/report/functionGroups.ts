import type { Circuit } from '../circuit/circuit.ts';
import { storyLoads } from './storyLoads.ts';

/** Loads that a vehicle has for one purpose. */
export type FunctionGroup = { readonly name: string; readonly loads: readonly string[] };

/** In the order in which a technician asks for them. */
const groups = {
  starting: 'Starting',
  engine: 'Ignition and fuel',
  charging: 'Charging',
  light: 'Lamps',
  instruments: 'Instruments',
  body: 'Wipers, blower, heaters',
  comfort: 'Radio, horn, sockets',
  modules: 'Modules',
} as const;

/**
 * The loads of a circuit by what they are for, so that a large drawing can be folded to some of it. What the engine
 * needs is told by the circuit itself, what shows the charge by the way of its current, the rest by its kind.
 *
 * @param loads ids, as the drawing has them; each is in exactly one group, and no group is empty
 */
export function functionGroups(circuit: Circuit, loads: readonly string[]): readonly FunctionGroup[] {
  const { engine } = circuit;
  const needed = new Set([...(engine?.spark ?? []), ...(engine?.fuel ?? []), ...(engine?.stops ?? [])]);
  const charging = new Set([...storyLoads(circuit).charge, ...(engine?.drives ?? [])]);
  const groupOf = (id: string): keyof typeof groups => {
    if (id === engine?.crank) return 'starting';
    if (needed.has(id)) return 'engine';
    if (charging.has(id)) return 'charging';
    return circuit.parts.get(id)?.kind.serves ?? 'body';
  };
  return Object.entries(groups).flatMap(([group, name]) => {
    const own = loads.filter((id) => groupOf(id) === group);
    return own.length === 0 ? [] : [{ name, loads: own }];
  });
}
