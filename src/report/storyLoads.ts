import type { Circuit } from '../circuit/circuit.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { loadsAt } from '../solve/loads.ts';
import { network } from '../solve/network.ts';
import { operatingPoint } from '../solve/operatingPoint.ts';
import { currentPaths } from '../solve/paths.ts';

export type StoryLoads = {
  /** What cranks the engine, what it needs to run, and what shows the charge: its current comes back through a part that the engine drives. */
  readonly first: readonly string[];
  /** Of these, what shows the charge. */
  readonly charge: readonly string[];
  /** What lives by the key alone, each contact of the key switch in turn, so that the first few show something of every one. */
  readonly more: readonly string[];
};

/**
 * Loads by which a circuit tells its story at first sight. Empty for a circuit without an engine.
 *
 * Cost: one solve for each key position.
 */
export function storyLoads(circuit: Circuit): StoryLoads {
  const { engine } = circuit;
  const lock = keySwitchOf(circuit);
  if (!engine || !lock) return { first: [], charge: [], more: [] };
  const net = network(circuit);
  const driven = new Set(engine.drives);
  const partOf = (terminal: string) => terminal.slice(0, terminal.lastIndexOf('.'));
  const showsCharge = new Set<string>();
  const byContact = new Map<string, Set<string>>();
  for (const { keyAngle } of keyStretches(lock.model)) {
    const at = operatingPoint(net, { ...restScene(circuit), key: { angle: keyAngle, came: 'up', in: true } });
    for (const { id, verdict } of loadsAt(at)) {
      const part = circuit.parts.get(id);
      if (!part || verdict === 'dead' || driven.has(id)) continue;
      const ways = currentPaths(at, part);
      if (ways.return.terminals.some((t) => driven.has(partOf(t)))) showsCharge.add(id);
      const contact = ways.feed.elements.map((e) => e.id).find((e) => e.startsWith(`${lock.part.id}.`));
      if (contact === undefined) continue;
      const own = byContact.get(contact) ?? new Set();
      byContact.set(contact, own.add(id));
    }
  }
  const lists = [...byContact.values()].map((own) => [...own]);
  const longest = Math.max(0, ...lists.map((l) => l.length));
  const inTurn = Array.from({ length: longest }, (_, k) => lists.flatMap((l) => l[k] ?? [])).flat();
  const own = [engine.crank, ...engine.spark, ...engine.fuel, ...(engine.stops ?? [])];
  const first = [...new Set([...own, ...showsCharge])].filter((id) => circuit.parts.has(id));
  return { first, charge: [...showsCharge], more: [...new Set(inTurn)].filter((id) => !first.includes(id)) };
}
