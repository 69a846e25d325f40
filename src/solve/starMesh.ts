/**
 * The order in which a network's nodes are eliminated and the places where each step reads and writes, worked out
 * once from the pattern alone. Node 0 is the reference and stays to the end.
 *
 * `slots` hold conductances: one for every pair of nodes that has or gains a branch. Step s eliminates node
 * `order[s]`; its neighbours are `near[from[s] .. from[s+1]]`, the branch to each in `nearSlot`; every pair of
 * neighbours gains conductance in `pairSlot`, pairs in the order (0,1), (0,2), (1,2), (0,3) …
 */
export type Pattern = {
  readonly nodes: number;
  readonly slots: number;
  /** Slot of each branch that was given, in the order given; -1 where both ends are one node. */
  readonly branchSlot: Int32Array;
  readonly order: Int32Array;
  readonly from: Int32Array;
  readonly near: Int32Array;
  readonly nearSlot: Int32Array;
  readonly pairFrom: Int32Array;
  readonly pairSlot: Int32Array;
};

/**
 * Works out the elimination for a pattern of branches, node of least degree first (ties: lowest number, so that the
 * order depends on nothing but the input). Vehicle wiring is nearly a tree, which this order eliminates with almost
 * no new branches.
 *
 * @param nodes  number of nodes, 0 the reference
 * @param ends   branch ends, two entries a branch
 * Cost: near linear in branches for tree-like wiring; cubic in the worst case.
 */
export function eliminationPattern(nodes: number, ends: ArrayLike<number>): Pattern {
  const beside: Map<number, number>[] = Array.from({ length: nodes }, () => new Map());
  const branchSlot = new Int32Array(ends.length / 2);
  let slots = 0;
  const slotBetween = (i: number, j: number): number => {
    const known = beside[i]!.get(j);
    if (known !== undefined) return known;
    beside[i]!.set(j, slots);
    beside[j]!.set(i, slots);
    return slots++;
  };
  for (let b = 0; b < branchSlot.length; b++) {
    const [i, j] = [ends[2 * b]!, ends[2 * b + 1]!];
    branchSlot[b] = i === j ? -1 : slotBetween(i, j);
  }
  const queue = new DegreeQueue(nodes);
  for (let i = 1; i < nodes; i++) queue.put(i, beside[i]!.size);
  const [order, from, near, nearSlot, pairFrom, pairSlot]: number[][] = [[], [0], [], [], [0], []];
  for (let k = queue.take(); k !== undefined; k = queue.take()) {
    const around = [...beside[k]!];
    order!.push(k);
    for (const [j, [i, slot]] of around.entries()) {
      near!.push(i);
      nearSlot!.push(slot);
      beside[i]!.delete(k);
      for (let h = 0; h < j; h++) pairSlot!.push(slotBetween(around[h]![0], i));
    }
    for (const [i] of around) if (i !== 0) queue.put(i, beside[i]!.size);
    from!.push(near!.length);
    pairFrom!.push(pairSlot!.length);
  }
  return {
    nodes,
    slots,
    branchSlot,
    order: Int32Array.from(order!),
    from: Int32Array.from(from!),
    near: Int32Array.from(near!),
    nearSlot: Int32Array.from(nearSlot!),
    pairFrom: Int32Array.from(pairFrom!),
    pairSlot: Int32Array.from(pairSlot!),
  };
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

/** A network with its conductances eliminated: ready to be solved for any feeds. */
export type Eliminated = {
  readonly pattern: Pattern;
  /** Conductance in each slot at the moment its first end was eliminated, S. */
  readonly siemens: Float64Array;
  /** Sum of conductances around each eliminated node, S; 0 = the last of an island tied to nothing. */
  readonly around: Float64Array;
};

/**
 * Eliminates every node but the reference by star-mesh steps: neighbours i and j of node k gain the conductance
 * g[k][i]·g[k][j] / Σg[k]. Only sums, products and quotients of positive numbers occur, so 1 mΩ beside 1 GΩ costs no
 * digits, and an island with no path to the reference ends in a sum of exactly zero: no tolerance is needed.
 *
 * @param siemens  per branch of the pattern, >= 0, 0 = open
 * Cost: one multiplication and one addition a pair; nothing is allocated when `into` is given.
 * Sources: star-mesh: A. Rosen, J. IEE 62 (1924) 916-918; elimination without subtraction: Grassmann, Taksar,
 * Heyman, Oper. Res. 33 (1985) 1107-1116 (both from memory).
 */
export function eliminate(pattern: Pattern, siemens: ArrayLike<number>, into?: Eliminated): Eliminated {
  const g = into?.siemens ?? new Float64Array(pattern.slots);
  const around = into?.around ?? new Float64Array(pattern.order.length);
  const { branchSlot, from, nearSlot, pairFrom, pairSlot } = pattern;
  g.fill(0);
  for (let b = 0; b < branchSlot.length; b++) {
    const slot = branchSlot[b]!;
    if (slot >= 0) g[slot]! += siemens[b]!;
  }
  for (let s = 0; s < around.length; s++) {
    const [first, last] = [from[s]!, from[s + 1]!];
    let sum = 0;
    for (let p = first; p < last; p++) sum += g[nearSlot[p]!]!;
    around[s] = sum;
    if (sum === 0) continue;
    let pair = pairFrom[s]!;
    for (let j = first + 1; j < last; j++) {
      const share = g[nearSlot[j]!]! / sum;
      if (share === 0) pair += j - first;
      else for (let i = first; i < j; i++) g[pairSlot[pair++]!]! += share * g[nearSlot[i]!]!;
    }
  }
  return { pattern, siemens: g, around };
}

/**
 * Node voltages for one set of feeds.
 *
 * @param feeds  ampere pushed into each node; used as working space and left changed. Entry 0 is ignored.
 * @param volts  receives volts per node against node 0. Islands tied to nothing are solved against their own last node.
 * @param floats receives 1 for every node without a path to node 0, else 0.
 */
export function nodeVoltages(done: Eliminated, feeds: Float64Array, volts: Float64Array, floats: Uint8Array): void {
  const { order, from, near, nearSlot } = done.pattern;
  const { siemens: g, around } = done;
  for (let s = 0; s < order.length; s++) {
    const sum = around[s]!;
    const feed = feeds[order[s]!]!;
    if (sum === 0 || feed === 0) continue;
    const perSiemens = feed / sum;
    for (let p = from[s]!; p < from[s + 1]!; p++) feeds[near[p]!]! += g[nearSlot[p]!]! * perSiemens;
  }
  volts[0] = 0;
  floats[0] = 0;
  for (let s = order.length - 1; s >= 0; s--) {
    const k = order[s]!;
    const sum = around[s]!;
    if (sum === 0) {
      volts[k] = 0;
      floats[k] = 1;
      continue;
    }
    let total = feeds[k]!;
    let tied = 0;
    for (let p = from[s]!; p < from[s + 1]!; p++) {
      const beside = g[nearSlot[p]!]!;
      if (beside === 0) continue;
      total += beside * volts[near[p]!]!;
      if (floats[near[p]!] === 0) tied = 1;
    }
    volts[k] = total / sum;
    floats[k] = 1 - tied;
  }
}
