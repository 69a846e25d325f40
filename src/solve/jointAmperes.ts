import type { Network } from './network.ts';
import type { OperatingPoint } from './operatingPoint.ts';

/** A step of the walk over a tree of joints, leaves first. */
type Step = { readonly child: number; readonly parent: number; readonly element: string | undefined; readonly sign: 1 | -1 };
type Forest = { readonly place: ReadonlyMap<string, number>; readonly steps: readonly Step[]; readonly idle: readonly string[] };

const forests = new WeakMap<Network, Forest>();

/**
 * Amperes through the ideal elements of a solution (wires without length, exact supplies), first end to second. The
 * solver merges their ends, so their currents follow from Kirchhoff's law alone: what arrives at the terminals on one
 * side of a joint crosses it. Of joints in a ring (two ideal wires side by side) the later ones are taken to carry nothing.
 *
 * Cost: linear in joints; the order of the walk is kept with the network.
 */
export function jointAmperes(at: OperatingPoint): ReadonlyMap<string, number> {
  const { network, amperes } = at;
  const forest = forests.get(network) ?? forestOf(network);
  forests.set(network, forest);
  const arrives = new Float64Array(forest.place.size);
  for (const [k, b] of network.branches.entries()) {
    const [from, to] = [forest.place.get(b.fromTerminal), forest.place.get(b.toTerminal)];
    if (from !== undefined) arrives[from]! -= amperes[k]!;
    if (to !== undefined) arrives[to]! += amperes[k]!;
  }
  const found = new Map<string, number>(forest.idle.map((id) => [id, 0]));
  for (const { child, parent, element, sign } of forest.steps) {
    const flow = arrives[child]!;
    arrives[parent]! += flow;
    if (element !== undefined) found.set(element, sign * flow + 0);
  }
  return found;
}

function forestOf(network: Network): Forest {
  const place = new Map<string, number>();
  const placeOf = (terminal: string) => {
    if (!place.has(terminal)) place.set(terminal, place.size);
    return place.get(terminal)!;
  };
  const beside: { other: number; element: string | undefined; sign: 1 | -1; joint: number }[][] = [];
  const names: (string | undefined)[] = [];
  for (const [joint, { id, a, b }] of network.joints.entries()) {
    const [u, v] = [placeOf(a), placeOf(b)];
    const branch = network.branchOf.get(id);
    const element = branch === undefined ? undefined : id;
    names.push(element);
    // +1: the element's current is counted from a to b.
    const sense = branch !== undefined && network.branches[branch]!.fromTerminal === b ? -1 : 1;
    while (beside.length < place.size) beside.push([]);
    beside[u]!.push({ other: v, element, sign: sense, joint });
    beside[v]!.push({ other: u, element, sign: sense === 1 ? -1 : 1, joint });
  }
  const steps: Step[] = [];
  const seen = new Set<number>();
  const used = new Set<number>();
  for (const start of beside.keys()) {
    if (seen.has(start)) continue;
    seen.add(start);
    const queue = [start];
    const found: Step[] = [];
    for (let at = queue.shift(); at !== undefined; at = queue.shift())
      for (const { other, element, sign, joint } of beside[at]!) {
        if (seen.has(other)) continue;
        seen.add(other);
        used.add(joint);
        // Counted from the child to its parent: the sign as seen from the child.
        found.push({ child: other, parent: at, element, sign: sign === 1 ? -1 : 1 });
        queue.push(other);
      }
    steps.push(...found.reverse());
  }
  return { place, steps, idle: names.filter((name, joint) => name !== undefined && !used.has(joint)) as string[] };
}
