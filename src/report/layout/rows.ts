import { type Block, blocksOf } from './blocks.ts';
import type { Heights } from './heights.ts';
import type { Nets, Piece } from './nets.ts';

/** Pieces that share a row and are placed together: a block, or a single piece. */
export type Unit = { readonly index: number; readonly block: Block | undefined; readonly pieces: readonly Piece[] };

export type Rows = {
  readonly units: readonly Unit[];
  readonly unitOf: readonly Unit[];
  /** Row of each piece by index, 0 on top. */
  readonly rowOf: Int32Array;
  readonly count: number;
};

/**
 * Row of every piece: by the longest way from the supply, but not above the line of its own sort (before the key
 * switch, key switch, protection, contacts, loads), so that fuses stand on one line, switches on one, loads on one.
 */
export function rowsOf(nets: Nets, heights: Heights): Rows {
  let blocks = blocksOf(nets, heights);
  for (;;) {
    const units = unitsOf(nets, blocks);
    const unitOf = byPiece(nets, units);
    const above = unitsAbove(nets, heights, units, unitOf);
    const order = fromSupplyDown(units, above);
    if (order === undefined) {
      // A frame whose piece hangs on another of its own pieces by a way round: the last such part is drawn detached.
      blocks = blocks.slice(0, -1);
      continue;
    }
    const row = unitRows(units, above, order);
    const rowOf = Int32Array.from(nets.pieces, (p) => row[unitOf[p.index]!.index]!);
    return { ...compacted(rowOf), units, unitOf };
  }
}

function unitsOf(nets: Nets, blocks: readonly Block[]): readonly Unit[] {
  const blockOf = new Map(blocks.flatMap((block) => block.pieces.map((p) => [p, block] as const)));
  const units: Unit[] = [];
  const placed = new Set<Block>();
  for (const p of nets.pieces) {
    const block = blockOf.get(p);
    if (block === undefined) units.push({ index: units.length, block, pieces: [p] });
    else if (!placed.has(block)) {
      placed.add(block);
      units.push({ index: units.length, block, pieces: block.pieces });
    }
  }
  return units;
}

function byPiece(nets: Nets, units: readonly Unit[]): readonly Unit[] {
  const unitOf: Unit[] = new Array(nets.pieces.length);
  for (const u of units) for (const p of u.pieces) unitOf[p.index] = u;
  return unitOf;
}

/** For each unit, the units whose lower end is on a net of one of its upper ends. */
function unitsAbove(nets: Nets, heights: Heights, units: readonly Unit[], unitOf: readonly Unit[]): readonly ReadonlySet<Unit>[] {
  const feeding: Set<Unit>[] = nets.nets.map(() => new Set());
  for (const p of nets.pieces) feeding[heights.lower(p)]!.add(unitOf[p.index]!);
  return units.map((u) => {
    const above = new Set<Unit>();
    for (const p of u.pieces) if (nets.nets[heights.upper(p)]!.bar === undefined) for (const f of feeding[heights.upper(p)]!) above.add(f);
    return above;
  });
}

/** Units so that each comes after all above it; undefined when a ring of units leaves no such order. */
function fromSupplyDown(units: readonly Unit[], above: readonly ReadonlySet<Unit>[]): readonly Unit[] | undefined {
  const done = new Set<Unit>();
  const order: Unit[] = [];
  for (let moved = true; moved && order.length < units.length; ) {
    moved = false;
    for (const u of units) {
      if (done.has(u) || ![...above[u.index]!].every((a) => done.has(a))) continue;
      done.add(u);
      order.push(u);
      moved = true;
    }
  }
  return order.length === units.length ? order : undefined;
}

function unitRows(units: readonly Unit[], above: readonly ReadonlySet<Unit>[], order: readonly Unit[]): Int32Array {
  const key = units.find((u) => u.block?.isKey);
  const beforeKey = new Set<Unit>();
  const collect = (u: Unit) => {
    for (const a of above[u.index]!)
      if (!beforeKey.has(a)) {
        beforeKey.add(a);
        collect(a);
      }
  };
  if (key) collect(key);
  const depth = new Int32Array(units.length);
  const rowsFor = (line: (u: Unit) => number) => {
    for (const u of order) depth[u.index] = Math.max(line(u), ...[...above[u.index]!].map((a) => depth[a.index]! + 1));
    return depth;
  };
  rowsFor(() => 0);
  const keyRow = key ? depth[key.index]! : -1;
  // A load that feeds another (charge lamp over rotor, pull-in winding over motor) leaves the line to the other.
  const uses = (u: Unit) => u.pieces.some((p) => p.symbol.role === 'load' || p.symbol.role === 'supply');
  const feedsLoad = new Set<Unit>();
  for (const u of [...order].reverse()) if (uses(u) || feedsLoad.has(u)) for (const a of above[u.index]!) feedsLoad.add(a);
  const isEnd = (u: Unit) => uses(u) && !feedsLoad.has(u);
  const base = (u: Unit): number => {
    if (beforeKey.has(u)) return 0;
    if (u === key) return keyRow;
    if (u.pieces.every((p) => p.symbol.role === 'protect')) return keyRow + 1;
    return keyRow + 2;
  };
  const underLoad = new Set<Unit>();
  for (const u of order) if ([...above[u.index]!].some((a) => isEnd(a) || underLoad.has(a))) underLoad.add(u);
  let loadRow = keyRow + 2;
  for (const u of units) if (isEnd(u) && !underLoad.has(u)) loadRow = Math.max(loadRow, depth[u.index]!);
  // A long chain may leave its lines: what stands over it moves up, so that it does not push all loads down.
  const steps = new Int32Array(units.length);
  for (const u of [...order].reverse())
    if (!underLoad.has(u)) for (const a of above[u.index]!) steps[a.index] = Math.max(steps[a.index]!, steps[u.index]! + 1);
  const line = (u: Unit) => {
    if (underLoad.has(u)) return base(u);
    return isEnd(u) ? loadRow : Math.min(base(u), loadRow - steps[u.index]!);
  };
  return rowsFor(line);
}

/** Rows without anything in them are taken out. */
function compacted(rowOf: Int32Array): Pick<Rows, 'rowOf' | 'count'> {
  const used = [...new Set(rowOf)].sort((a, b) => a - b);
  const newRow = new Map(used.map((row, k) => [row, k]));
  return { rowOf: rowOf.map((row) => newRow.get(row)!), count: used.length };
}
