import { alg, Graph } from '@dagrejs/graphlib';
import type { OperatingPoint } from './operatingPoint.ts';

/**
 * The closed wiring of an instant as a graph: nodes of the network, and an edge for every branch that can carry
 * current there. Questions of topology (fed or not, tied to nothing, which points a load hangs on) are answered here,
 * exactly, and never by a small voltage.
 */
export function wiringGraph(at: OperatingPoint, without?: string): Graph {
  const graph = new Graph({ directed: false, multigraph: true });
  for (let n = 0; n < at.network.pattern.nodes; n++) graph.setNode(String(n));
  for (const [k, b] of at.network.branches.entries())
    if (at.siemens[k]! > 0 && b.from !== b.to && b.id !== without) graph.setEdge(String(b.from), String(b.to), b.id, b.id);
  return graph;
}

/** Groups of terminals that are tied together at this instant, the group of the reference first. */
export function islands(at: OperatingPoint): readonly (readonly string[])[] {
  const terminals = new Map<string, string[]>();
  for (const [terminal, node] of at.network.nodeOf) terminals.set(String(node), [...(terminals.get(String(node)) ?? []), terminal]);
  const groups = alg.components(wiringGraph(at)).map((nodes) => nodes.flatMap((n) => terminals.get(n) ?? []));
  return groups.sort((a, b) => Number(b.includes(at.network.reference)) - Number(a.includes(at.network.reference)));
}

/**
 * Elements whose loss alone would cut a load off from every supply or return: the points it hangs on.
 *
 * @param ends  the load's two terminals
 * Cost: one walk of the graph for each element on the way.
 */
export function hangsOn(at: OperatingPoint, ends: readonly [string, string], way: readonly string[]): readonly string[] {
  const [a, b] = ends.map((t) => String(at.network.nodeOf.get(t) ?? 0));
  const reference = supplyNodes(at);
  const fed = (graph: Graph) => {
    const reach = alg.components(graph);
    const group = (n: string) => reach.findIndex((nodes) => nodes.includes(n));
    const groups = new Set(reference.map(group));
    return groups.has(group(a!)) && groups.has(group(b!));
  };
  return way.filter((id) => !fed(wiringGraphBut(at, id, ends)));
}

function wiringGraphBut(at: OperatingPoint, element: string, ends: readonly [string, string]): Graph {
  const graph = wiringGraph(at, element);
  const [a, b] = ends.map((t) => String(at.network.nodeOf.get(t) ?? 0));
  for (const e of graph.edges()) if ((e.v === a && e.w === b) || (e.v === b && e.w === a)) graph.removeEdge(e);
  return graph;
}

function supplyNodes(at: OperatingPoint): readonly string[] {
  return at.network.members.flatMap(({ part }) =>
    (part.kind.supply?.(part) ?? []).map((t) => String(at.network.nodeOf.get(`${part.id}.${t}`) ?? 0)),
  );
}
