import type { OperatingPoint } from '../solve/operatingPoint.ts';

/**
 * The joints on which alone a piece of the wiring hangs, and what would be tied to nothing without each: exactly, by
 * the graph of what conducts in a scene.
 *
 * @returns `beyond(branch)`: the nodes cut off when the branch opens; undefined when another way remains
 * Cost: once a scene, linear in branches.
 * Source: R. E. Tarjan, A note on finding the bridges of a graph, Inf. Proc. Letters 2 (1974) 160-161 (from memory).
 */
export function cutEdges(at: OperatingPoint): {
  readonly beyond: (branch: number) => readonly number[] | undefined;
  /** Every node that hangs together with this one. */
  readonly island: (node: number) => readonly number[];
} {
  const { network: net, siemens, push } = at;
  const many = at.nodeVolts.length;
  const beside: { readonly node: number; readonly branch: number }[][] = Array.from({ length: many }, () => []);
  for (const [k, b] of net.branches.entries()) {
    if (siemens[k] === 0 && push[k] === 0) continue;
    beside[b.from]!.push({ node: b.to, branch: k });
    beside[b.to]!.push({ node: b.from, branch: k });
  }
  const found = new Int32Array(many).fill(-1);
  const low = new Int32Array(many);
  const next = new Int32Array(many);
  const via = new Int32Array(many).fill(-1);
  const order: number[] = [0];
  const path: number[] = [0];
  const ends = new Map<number, readonly [from: number, to: number]>();
  found[0] = 0;
  while (path.length > 0) {
    const n = path.at(-1)!;
    const step = beside[n]![next[n]!++];
    if (step === undefined) {
      path.pop();
      const parent = path.at(-1);
      if (parent === undefined) break;
      low[parent] = Math.min(low[parent]!, low[n]!);
      if (low[n]! > found[parent]!) ends.set(via[n]!, [found[n]!, order.length]);
    } else if (step.branch !== via[n]) {
      if (found[step.node]! < 0) {
        found[step.node] = order.length;
        low[step.node] = order.length;
        order.push(step.node);
        via[step.node] = step.branch;
        path.push(step.node);
      } else low[n] = Math.min(low[n]!, found[step.node]!);
    }
  }
  return {
    island: (node) => {
      const met = new Set([node]);
      for (const n of met) for (const step of beside[n]!) met.add(step.node);
      return [...met];
    },
    beyond: (branch) => {
      const stretch = ends.get(branch);
      return stretch && order.slice(stretch[0], stretch[1]);
    },
  };
}
