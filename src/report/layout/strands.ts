import type { Edge } from './nets.ts';

/** Wires, pins and joints in series from one branching point or terminal of a net to the next. */
export type Strand = {
  /** Vertices along it, one more than edges. */
  readonly along: readonly string[];
  readonly edges: readonly { readonly edge: Edge; readonly isForward: boolean }[];
};

/**
 * The strands of a net. Loose ends (wires fastened to nothing) are left out.
 *
 * @param isStop  vertices at which a strand ends besides branchings: terminals of pieces, ground bars
 */
export function strandsOf(edges: readonly Edge[], isStop: (vertex: string) => boolean): readonly Strand[] {
  const live = withoutLooseEnds(edges, isStop);
  const beside = besides(live);
  const ends = (vertex: string) => isStop(vertex) || beside.get(vertex)!.length !== 2;
  const used = new Set<Edge>();
  const strands: Strand[] = [];
  for (const start of beside.keys()) {
    if (!ends(start)) continue;
    for (const first of beside.get(start)!) {
      if (used.has(first)) continue;
      const along = [start];
      const way: { edge: Edge; isForward: boolean }[] = [];
      let edge: Edge | undefined = first;
      while (edge) {
        used.add(edge);
        const here: string = along.at(-1)!;
        const isForward: boolean = edge.from === here;
        const next: string = isForward ? edge.to : edge.from;
        way.push({ edge, isForward });
        along.push(next);
        edge = ends(next) ? undefined : beside.get(next)!.find((e) => !used.has(e));
      }
      strands.push({ along, edges: way });
    }
  }
  return strands;
}

function besides(edges: readonly Edge[]): Map<string, Edge[]> {
  const beside = new Map<string, Edge[]>();
  for (const e of edges) for (const v of [e.from, e.to]) beside.set(v, [...(beside.get(v) ?? []), e]);
  return beside;
}

function withoutLooseEnds(edges: readonly Edge[], isStop: (vertex: string) => boolean): readonly Edge[] {
  let live = edges.filter((e) => e.from !== e.to);
  for (;;) {
    const beside = besides(live);
    const next = live.filter((e) => [e.from, e.to].every((v) => isStop(v) || beside.get(v)!.length > 1));
    if (next.length === live.length) return live;
    live = next;
  }
}
