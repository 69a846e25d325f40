import type { Circuit } from './circuit.ts';
import type { PartKind } from './part.ts';
import type { Read } from './problem.ts';
import { readPlaced } from './readPlaced.ts';
import type { TreeMemory } from './treeMemory.ts';
import { yamlTree } from './yamlTree.ts';

/**
 * Reads a circuit from YAML or JSON. Never throws on any text; tells every problem at once, one per cause, in the order
 * of the file. Warnings leave the circuit readable.
 *
 * @param file  name for messages, as the caller knows the file
 * @param kinds the kinds of parts known, of which one is the wire
 * @param memory what an editor keeps of the readings before; the kinds must be the same each time
 * Cost: near linear; most of it is the YAML library; 20 000 parts take a few seconds.
 */
export function readCircuit(text: string, file: string, kinds: readonly PartKind[], memory?: TreeMemory): Read<Circuit> {
  return readPlaced(memory ? memory.tree(text, file) : yamlTree(text, file), kinds, memory);
}
