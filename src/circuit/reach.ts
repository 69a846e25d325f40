/** A way between two points; `mark` says what it belongs to. */
export type Edge<M> = { readonly from: number; readonly to: number; readonly mark: M };

/**
 * Groups the edges of a graph into blocks: two edges share a block when one closed way runs through both. Current can
 * flow through an edge only when a source stands in its block, whatever the resistances are.
 *
 * @returns number of the block of each edge; an edge from a point to itself has none (-1)
 * Cost: linear. Method: depth first with low points, Hopcroft and Tarjan 1973 (from memory), without recursion.
 */
export function blocks(nodes: number, edges: readonly Edge<unknown>[]): Int32Array {
  const block = new Int32Array(edges.length).fill(-1);
  const around: number[][] = Array.from({ length: nodes }, () => []);
  for (const [k, e] of edges.entries()) {
    if (e.from === e.to) continue;
    around[e.from]!.push(k);
    around[e.to]!.push(k);
  }
  const seen = new Int32Array(nodes).fill(-1);
  const low = new Int32Array(nodes);
  const next = new Int32Array(nodes);
  let time = 0;
  let count = 0;
  for (let root = 0; root < nodes; root++) {
    if (seen[root] !== -1) continue;
    const walk: { node: number; by: number }[] = [{ node: root, by: -1 }];
    const open: number[] = [];
    seen[root] = low[root] = time++;
    while (walk.length > 0) {
      const { node, by } = walk.at(-1)!;
      const k = around[node]![next[node]!++];
      if (k !== undefined) {
        if (k === by) continue;
        const e = edges[k]!;
        const other = e.from === node ? e.to : e.from;
        if (seen[other] === -1) {
          open.push(k);
          seen[other] = low[other] = time++;
          walk.push({ node: other, by: k });
        } else if (seen[other]! < seen[node]!) {
          open.push(k);
          low[node] = Math.min(low[node]!, seen[other]!);
        }
        continue;
      }
      walk.pop();
      const up = walk.at(-1)?.node;
      if (up === undefined) continue;
      low[up] = Math.min(low[up]!, low[node]!);
      if (low[node]! < seen[up]!) continue;
      // Nothing below reaches above `up`: the open edges down to this one are a block.
      for (let last = open.pop(); last !== undefined; last = open.pop()) {
        block[last] = count;
        if (last === by) break;
      }
      count++;
    }
  }
  return block;
}
