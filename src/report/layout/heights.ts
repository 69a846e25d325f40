import { flowOrder } from './flowOrder.ts';
import type { Nets, Piece } from './nets.ts';
import { railNet } from './railNet.ts';

/** Which net is fed first, and which end of each piece looks towards the supply. */
export type Heights = {
  /** Nets from the supply down, ground bars last: the end that comes first here is a piece's upper end. */
  readonly order: readonly number[];
  /** Net of the rail on top, undefined in a circuit without supply. */
  readonly rail: number | undefined;
  readonly upper: (piece: Piece) => number;
  readonly lower: (piece: Piece) => number;
  readonly isTurned: (piece: Piece) => boolean;
};

/**
 * Which end of each piece is up. As declared (first terminal towards the supply), which circuit files keep nearly
 * always; where that would leave a net without feed or without return, or run in a ring, as current would flow with the
 * rail at 1, every ground at 0 and each piece one ohm. Both know nothing of any kind of part, and a further part
 * changes the order of others only when it feeds them.
 *
 * Cost: cubic in nets; 150 nets take about a millisecond.
 */
export function heightsOf(nets: Nets): Heights {
  const { pieces, netOf } = nets;
  const ends = pieces.map((p) => [netOf(p.from), netOf(p.to)] as const);
  const rail = railNet(nets);
  const n = nets.nets.length;
  const isBar = (k: number) => nets.nets[k]!.bar !== undefined && k !== rail;
  const flow = flowOrder(nets, ends, rail, isBar);
  const place = new Int32Array(n);
  for (const [k, net] of flow.entries()) place[net] = k;
  const flows = ends.map(([a, b]) => place[a]! > place[b]!);

  // true: turned against the declaration.
  const turned = ends.map(([a, b]) => (isBar(a) && !isBar(b)) || (b === rail && a !== rail));
  for (let pass = 0; pass < 4; pass++) {
    const [fed, left] = [new Int32Array(n), new Int32Array(n)];
    for (const [k, [a, b]] of ends.entries()) {
      const [up, down] = turned[k] ? [b, a] : [a, b];
      left[up]!++;
      fed[down]!++;
    }
    const isBad = (net: number) => !isBar(net) && net !== rail && fed[net]! + left[net]! > 1 && (fed[net] === 0 || left[net] === 0);
    let changed = false;
    for (const [k, [a, b]] of ends.entries())
      if ((isBad(a) || isBad(b)) && turned[k] !== flows[k]) {
        turned[k] = flows[k]!;
        changed = true;
      }
    if (!changed) break;
  }
  const order = sorted(n, ends, turned, flow, isBar) ?? flow;
  for (const [k, net] of order.entries()) place[net] = k;
  const isTurned = (p: Piece) => {
    const [a, b] = ends[p.index]!;
    return place[a]! > place[b]!;
  };
  return {
    order,
    rail,
    isTurned,
    upper: (p) => ends[p.index]![isTurned(p) ? 1 : 0],
    lower: (p) => ends[p.index]![isTurned(p) ? 0 : 1],
  };
}

/** Nets so that every piece leads downwards; undefined when that is a ring. Of several that could come next, the first in `flow`. */
function sorted(
  n: number,
  ends: readonly (readonly [number, number])[],
  turned: readonly boolean[],
  flow: readonly number[],
  isBar: (k: number) => boolean,
): readonly number[] | undefined {
  const waits = new Int32Array(n);
  const next: number[][] = Array.from({ length: n }, () => []);
  for (const [k, [a, b]] of ends.entries()) {
    const [up, down] = turned[k] ? [b, a] : [a, b];
    if (up === down || isBar(up)) continue;
    next[up]!.push(down);
    waits[down]!++;
  }
  const order: number[] = [];
  const waiting = new Set(flow.filter((net) => !isBar(net)));
  for (let net = first(waiting, waits); net !== undefined; net = first(waiting, waits)) {
    waiting.delete(net);
    order.push(net);
    for (const d of next[net]!) waits[d]!--;
  }
  return waiting.size > 0 ? undefined : [...order, ...flow.filter(isBar)];
}

function first(waiting: ReadonlySet<number>, waits: Int32Array): number | undefined {
  for (const net of waiting) if (waits[net] === 0) return net;
  return undefined;
}
