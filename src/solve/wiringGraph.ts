import { alg, Graph } from '@dagrejs/graphlib';
import type { OperatingPoint } from './operatingPoint.ts';

/**
 * The closed wiring of an instant as a graph: nodes of the network, and an edge for every branch that can carry
 * current there. Questions of topology (fed or not, tied to nothing, which points a load hangs on) are answered here,
 * exactly, and never by a small voltage.
 */
export function wiringGraph(at: OperatingPoint): Graph {
  const graph = new Graph({ directed: false, multigraph: true });
  for (let n = 0; n < at.network.pattern.nodes; n++) graph.setNode(String(n));
  for (const [k, b] of at.network.branches.entries())
    if (at.siemens[k]! > 0 && b.from !== b.to) graph.setEdge(String(b.from), String(b.to), b.id, b.id);
  return graph;
}

/** Groups of terminals that are tied together at this instant, the group of the reference first. */
export function islands(at: OperatingPoint): readonly (readonly string[])[] {
  const terminals = new Map<string, string[]>();
  for (const [terminal, node] of at.network.nodeOf) terminals.set(String(node), [...(terminals.get(String(node)) ?? []), terminal]);
  // In the order of the nodes, of which the reference is the first.
  return alg.components(wiringGraph(at)).map((nodes) => nodes.flatMap((n) => terminals.get(n) ?? []));
}
