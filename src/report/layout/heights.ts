import type { Net, Nets, Piece } from './nets.ts';

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

/** Nets by the height at which they would stand as voltages; ground bars last. */
function flowOrder(
  nets: Nets,
  ends: readonly (readonly [number, number])[],
  rail: number | undefined,
  isBar: (k: number) => boolean,
): readonly number[] {
  const n = nets.nets.length;
  const height = harmonic(
    n,
    ends,
    nets.nets.map((net) => (net.index === rail ? 1 : net.bar ? 0 : undefined)),
  );
  const hops = hopsFrom(n, ends, rail);
  // Rounding must not decide: heights that differ by less than this are equal.
  const same = 1e-7;
  const rank = (k: number) => Math.round(height[k]! / same);
  return [...nets.nets.keys()].sort((a, b) => {
    if (isBar(a) !== isBar(b)) return isBar(a) ? 1 : -1;
    if (a === rail || b === rail) return a === rail ? -1 : 1;
    return rank(b) - rank(a) || hops[a]! - hops[b]! || a - b;
  });
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

/** A link leads to the rail when this share of all pieces hangs on it, and no more than a few heavy pieces (starter, alternator, a relay) stand before it. */
const mainShare = 0.6;
const mostBeside = 5;

/** Pieces that a net feeds, as they are declared from feed to return; ground bars end the way. */
function fedBy(nets: readonly Net[], pieces: readonly Piece[], netOf: (t: string) => number, start: number, without: number): number {
  const seen = new Set([start]);
  let count = 0;
  for (const net of seen)
    for (const p of pieces) {
      if (netOf(p.from) !== net || netOf(p.to) === without) continue;
      count++;
      if (!nets[netOf(p.to)]?.bar) seen.add(netOf(p.to));
    }
  return count;
}

/**
 * The net drawn as the rail on top: what the first supply feeds; but when nearly all the rest hangs on one link or
 * main switch at the battery, the far side of that, so that battery and link stand in one track and the rail is the long one.
 */
function railNet({ nets, pieces, netOf }: Nets): number | undefined {
  const supply = pieces.find((p) => p.part.kind.supply?.(p.part) !== undefined) ?? pieces.find((p) => p.symbol.role === 'supply');
  if (supply === undefined) return pieces[0] && netOf(pieces[0].from);
  const [plus, minus] = [plusNet(supply, netOf), minusNet(supply, netOf)];
  const isTerminal = pieces.some((p) => netOf(p.from) === plus || netOf(p.to) === plus);
  let hot = nets[plus]?.bar && !nets[minus]?.bar ? minus : plus;
  if (!isTerminal) hot = minus;
  // Batteries in series: the rail is fed by the last of them.
  for (let more: Piece | undefined = supply; more; ) {
    const over = pieces.find(
      (p) =>
        p !== supply &&
        p.symbol.role === 'supply' &&
        p.part.kind.supply !== undefined &&
        minusNet(p, netOf) === hot &&
        plusNet(p, netOf) !== hot,
    );
    if (over === undefined || over === more) break;
    more = over;
    hot = plusNet(over, netOf);
  }
  const at = (net: number) => pieces.filter((p) => netOf(p.from) === net || netOf(p.to) === net);
  const far = (p: Piece, net: number) => (netOf(p.from) === net ? netOf(p.to) : netOf(p.from));
  for (let hop = 0; hop < 4; hop++) {
    const around = at(hot).filter((p) => p.symbol.role !== 'supply');
    const reach = (p: Piece) =>
      p.symbol.role === 'protect' || p.symbol.role === 'contact' ? fedBy(nets, pieces, netOf, far(p, hot), hot) : 0;
    const onward = around.reduce<Piece | undefined>((best, p) => (reach(p) > (best ? reach(best) : 0) ? p : best), undefined);
    const isKey = onward?.part.kind.key !== undefined;
    if (onward === undefined || isKey || around.length > mostBeside || reach(onward) < mainShare * pieces.length) break;
    hot = far(onward, hot);
  }
  return nets[hot]?.bar ? undefined : hot;
}

function plusNet(p: Piece, netOf: (t: string) => number): number {
  return netOf(`${p.part.id}.${p.part.kind.supply?.(p.part)?.[0] ?? p.pole.from}`);
}

function minusNet(p: Piece, netOf: (t: string) => number): number {
  return netOf(`${p.part.id}.${p.part.kind.supply?.(p.part)?.[1] ?? p.pole.to}`);
}

function hopsFrom(n: number, ends: readonly (readonly [number, number])[], start: number | undefined): readonly number[] {
  const hops = Array.from({ length: n }, () => Number.POSITIVE_INFINITY);
  if (start === undefined) return hops.map(() => 0);
  hops[start] = 0;
  for (let moved = true; moved; ) {
    moved = false;
    for (const [a, b] of ends)
      for (const [u, v] of [
        [a, b],
        [b, a],
      ] as const)
        if (hops[u]! + 1 < hops[v]!) {
          hops[v] = hops[u]! + 1;
          moved = true;
        }
  }
  return hops.map((h) => Math.min(h, n));
}

function harmonic(n: number, ends: readonly (readonly [number, number])[], fixed: readonly (number | undefined)[]): Float64Array {
  const rows = fixed.flatMap((f, k) => (f === undefined ? [k] : []));
  const rowOf = new Int32Array(n).fill(-1);
  for (const [r, k] of rows.entries()) rowOf[k] = r;
  const m = rows.length;
  const a = Array.from({ length: m }, () => new Float64Array(m + 1));
  // A trace of conductance to ground keeps nets that hang on nothing solvable.
  for (let r = 0; r < m; r++) a[r]![r] = 1e-12;
  for (const [u, v] of ends) {
    for (const [here, there] of [
      [u, v],
      [v, u],
    ] as const) {
      const r = rowOf[here]!;
      if (r < 0) continue;
      a[r]![r]! += 1;
      if (rowOf[there]! >= 0) a[r]![rowOf[there]!]! -= 1;
      else a[r]![m]! += fixed[there] ?? 0;
    }
  }
  for (let k = 0; k < m; k++)
    for (let r = k + 1; r < m; r++) {
      const share = a[r]![k]! / a[k]![k]!;
      if (share === 0) continue;
      for (let c = k; c <= m; c++) a[r]![c]! -= share * a[k]![c]!;
    }
  const height = new Float64Array(n);
  for (const [k, f] of fixed.entries()) height[k] = f ?? 0;
  for (let r = m - 1; r >= 0; r--) {
    let sum = a[r]![m]!;
    for (let c = r + 1; c < m; c++) sum -= a[r]![c]! * height[rows[c]!]!;
    height[rows[r]!] = sum / a[r]![r]!;
  }
  return height;
}
