/**
 * The order in which a network's nodes are eliminated and the places where each step reads and writes, worked out
 * once from the pattern alone. Node 0 is the reference and stays to the end.
 *
 * Conductances are numbered in one row: those of the branches, then those that each step leaves between pairs of its
 * neighbours. Step s eliminates node `order[s]`. Its arms are the places `from[s] .. from[s+1]`; arm p leads to node
 * `near[p]` and has the conductances `made[madeFrom[p] .. madeFrom[p+1]]`. The pairs of a step's arms are the conductances
 * `pairFrom[s] ..`, in the order (0,1), (0,2), (1,2), (0,3) … Every conductance belongs to one arm and every arm to
 * one step, so any step can be done again by itself.
 *
 * Every step has an even number of arms, the last of them idle where need be: an arm to the reference that carries no
 * branch. Nearly all steps in wiring have one or two, and taking arms by twos, in one loop over all, is what makes
 * the passes over a network twice as fast as a loop within a loop.
 */
export type Pattern = {
  readonly nodes: number;
  /** Step at which each branch is taken up; -1 where both ends are one node. */
  readonly branchStep: Int32Array;
  readonly order: Int32Array;
  readonly from: Int32Array;
  readonly near: Int32Array;
  /** The node whose arms 2q and 2q+1 are. */
  readonly owner: Int32Array;
  readonly madeFrom: Int32Array;
  readonly made: Int32Array;
  /** The last entry is the number of all conductances. */
  readonly pairFrom: Int32Array;
  /** Arms of earlier steps that lead to a step's node: `arrive[arriveFrom[s] .. arriveFrom[s+1]]`. */
  readonly arriveFrom: Int32Array;
  readonly arrive: Int32Array;
  /**
   * The first later step that a step changes, -1 for none. All others that it changes follow from there by the same
   * rule: its other neighbours become neighbours of the first one.
   */
  readonly next: Int32Array;
};

/**
 * Works out the elimination for a pattern of branches, node of least degree first (ties: lowest number, so that the
 * order depends on nothing but the input). Vehicle wiring is nearly a tree, which this order eliminates with almost
 * no new branches.
 *
 * @param nodes  number of nodes, 0 the reference
 * @param ends   branch ends, two entries a branch
 * Cost: near linear in branches for tree-like wiring; cubic in the worst case.
 * Source: minimum degree: D. J. Rose, in Graph Theory and Computing (1972) 183-217 (from memory).
 */
export function eliminationPattern(nodes: number, ends: ArrayLike<number>): Pattern {
  // A slot is a pair of nodes with a branch, given or gained; it becomes an arm of whichever of the two goes first.
  const beside: Map<number, number>[] = Array.from({ length: nodes }, () => new Map());
  let slots = 0;
  const slotBetween = (i: number, j: number): number => {
    const known = beside[i]!.get(j);
    if (known !== undefined) return known;
    beside[i]!.set(j, slots);
    beside[j]!.set(i, slots);
    return slots++;
  };
  const branchSlot: number[] = [];
  for (let b = 0; b < ends.length / 2; b++) {
    const [i, j] = [ends[2 * b]!, ends[2 * b + 1]!];
    branchSlot.push(i === j ? -1 : slotBetween(i, j));
  }
  const queue = new DegreeQueue(nodes);
  for (let i = 1; i < nodes; i++) queue.put(i, beside[i]!.size);
  const order: number[] = [];
  const from = [0];
  const near: number[] = [];
  const owner: number[] = [];
  const armOfSlot: number[] = [];
  const pairFrom = [branchSlot.length];
  const pairSlot: number[] = [];
  for (let k = queue.take(); k !== undefined; k = queue.take()) {
    const first = near.length;
    for (const [i, slot] of beside[k]!) {
      armOfSlot[slot] = near.length;
      near.push(i);
      beside[i]!.delete(k);
    }
    for (let j = first; j < near.length; j++) for (let i = first; i < j; i++) pairSlot.push(slotBetween(near[i]!, near[j]!));
    for (let p = first; p < near.length; p++) if (near[p] !== 0) queue.put(near[p]!, beside[near[p]!]!.size);
    if (near.length % 2 === 1) {
      for (let i = first; i < near.length; i++) pairSlot.push(-1);
      near.push(0);
    }
    while (owner.length * 2 < near.length) owner.push(k);
    order.push(k);
    from.push(near.length);
    pairFrom.push(branchSlot.length + pairSlot.length);
  }
  const arm = (slot: number) => (slot < 0 ? -1 : armOfSlot[slot]!);
  const [madeFrom, made] = grouped(near.length, branchSlot.concat(pairSlot).map(arm));
  const stepOf = new Int32Array(nodes).fill(-1);
  for (const [s, k] of order.entries()) stepOf[k] = s;
  const branchStep = Int32Array.from(branchSlot, (_, b) => earliest([ends[2 * b]!, ends[2 * b + 1]!], stepOf, branchSlot[b]! < 0));
  const next = Int32Array.from(order, (_, s) => earliest(near.slice(from[s]!, from[s + 1]!), stepOf));
  const [arriveFrom, arrive] = grouped(
    order.length,
    near.map((n) => stepOf[n]!),
  );
  return {
    nodes,
    branchStep,
    order: Int32Array.from(order),
    from: Int32Array.from(from),
    near: Int32Array.from(near),
    owner: Int32Array.from(owner),
    madeFrom,
    made,
    pairFrom: Int32Array.from(pairFrom),
    arriveFrom,
    arrive,
    next,
  };
}

function earliest(nodes: readonly number[], stepOf: Int32Array, none = false): number {
  let step = -1;
  if (!none) for (const n of nodes) if (stepOf[n]! >= 0 && (step < 0 || stepOf[n]! < step)) step = stepOf[n]!;
  return step;
}

/** Indices of `groupOf` by group, -1 left out: group g holds `members[starts[g] .. starts[g+1]]`, in rising order. */
function grouped(groups: number, groupOf: readonly number[]): [starts: Int32Array, members: Int32Array] {
  const starts = new Int32Array(groups + 1);
  for (const g of groupOf) if (g >= 0) starts[g + 1]!++;
  for (let g = 0; g < groups; g++) starts[g + 1]! += starts[g]!;
  const fill = starts.slice();
  const members = new Int32Array(starts[groups]!);
  for (const [i, g] of groupOf.entries()) if (g >= 0) members[fill[g]!++] = i;
  return [starts, members];
}

/** Nodes by degree; taking gives the least degree, the lowest number among equals. */
class DegreeQueue {
  private readonly heaps: number[][] = [];
  private readonly degree: Int32Array;
  private least = 0;
  constructor(nodes: number) {
    this.degree = new Int32Array(nodes).fill(-1);
  }
  put(node: number, degree: number): void {
    if (this.degree[node] === degree) return;
    this.degree[node] = degree;
    while (this.heaps.length <= degree) this.heaps.push([]);
    pushHeap(this.heaps[degree]!, node);
    this.least = Math.min(this.least, degree);
  }
  take(): number | undefined {
    for (; this.least < this.heaps.length; this.least++) {
      const heap = this.heaps[this.least]!;
      while (heap.length > 0) {
        const node = popHeap(heap);
        if (this.degree[node] === this.least) {
          this.degree[node] = -1;
          return node;
        }
      }
    }
    return undefined;
  }
}

function pushHeap(heap: number[], item: number): void {
  let at = heap.push(item) - 1;
  while (at > 0) {
    const up = (at - 1) >> 1;
    if (heap[up]! <= item) break;
    heap[at] = heap[up]!;
    at = up;
  }
  heap[at] = item;
}

function popHeap(heap: number[]): number {
  const first = heap[0]!;
  const last = heap.pop()!;
  if (heap.length === 0) return first;
  let at = 0;
  for (;;) {
    let down = 2 * at + 1;
    if (down >= heap.length) break;
    if (down + 1 < heap.length && heap[down + 1]! < heap[down]!) down++;
    if (heap[down]! >= last) break;
    heap[at] = heap[down]!;
    at = down;
  }
  heap[at] = last;
  return first;
}
