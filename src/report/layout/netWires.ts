import type { Carried, PlacedPin, PlacedWire, Point } from './layout.ts';
import type { Net } from './nets.ts';
import { type IsClear, type Stretch, splitLines, type Way } from './splitLines.ts';
import { type Strand, strandsOf } from './strands.ts';

/** Where a net ends at a piece or a frame. `ways` are the pieces' currents there, with sign +1 where they leave the net. */
export type NetEnd = { readonly x: number; readonly y: number; readonly vertex: string; readonly ways: readonly Carried[] };

export type Drawn = { readonly wires: readonly PlacedWire[]; readonly pins: readonly PlacedPin[]; readonly dots: readonly Point[] };

/**
 * Draws one net as a rail with uprights, and says for every stretch which wires it shows and whose current it carries.
 *
 * Each wire runs through the drawn tree from the terminal where it begins to that where it ends; a stretch shows the
 * wires that run through it. So the sum of their currents is exactly what a clamp around that stretch would read.
 *
 * @param isClear whether a pin may stand there without lying on another wire
 * @param railAt  height of the rail or of the ground bar at an x; without one all ends are in one column
 */
export function netWires(net: Net, ends: readonly NetEnd[], railAt: (x: number) => number | undefined, isClear: IsClear): Drawn {
  const bar = net.bar;
  const middle = ends.reduce((sum, e) => sum + e.y, 0) / Math.max(1, ends.length);
  const yAt = (x: number) => railAt(x) ?? middle;
  const xs = [...new Set(ends.map((e) => e.x))].sort((a, b) => a - b);
  // Joints: 0 … ends-1 are the ends, then one per place on the rail.
  const place = (x: number) => ends.length + xs.indexOf(x);
  const uprights = ends.map(
    (e, k): Stretch => ({
      a: k,
      b: place(e.x),
      points: [
        [e.x, e.y],
        [e.x, yAt(e.x)],
      ],
      shows: [],
    }),
  );
  const railways = bar
    ? []
    : xs.slice(1).map(
        (x, k): Stretch => ({
          a: place(xs[k]!),
          b: place(x),
          points: [
            [xs[k]!, yAt(x)],
            [x, yAt(x)],
          ],
          shows: [],
        }),
      );

  const endOf = new Map<string, number>();
  for (const [k, e] of ends.entries()) if (!endOf.has(e.vertex) && e.vertex !== bar?.vertex) endOf.set(e.vertex, k);
  const strands = strandsOf(net.edges, (v) => endOf.has(v) || v === bar?.vertex);
  const onRail = placesOfJoints(strands, ends, endOf, xs);
  const ways: Way[] = strands.map((strand) => ({ strand, carried: [], u: strand.along[0]!, v: strand.along.at(-1)!, path: [] }));
  for (const [k, e] of ends.entries())
    if (endOf.get(e.vertex) !== k) ways.push({ strand: undefined, carried: e.ways, u: e.vertex, v: e.vertex, path: [] });

  let inner = 0;
  const innerEnds = ends.flatMap((e, k) => (endOf.get(e.vertex) !== k ? [k] : []));
  for (const way of ways) {
    const from = endOf.get(way.u);
    const to = way.strand ? endOf.get(way.v) : innerEnds[inner++];
    const x1 = from !== undefined ? ends[from]!.x : onRail.get(way.u);
    const x2 = to !== undefined ? ends[to]!.x : onRail.get(way.v);
    const show = (stretch: Stretch, isForward: boolean) => {
      stretch.shows.push({ way, isForward });
      way.path.push(stretch);
    };
    if (from !== undefined && from === to) continue;
    if (from !== undefined) show(uprights[from]!, true);
    if (x1 !== undefined && x2 !== undefined && railways.length > 0) {
      const [i, j] = [xs.indexOf(x1), xs.indexOf(x2)];
      for (let k = i; k < j; k++) show(railways[k]!, true);
      for (let k = i - 1; k >= j; k--) show(railways[k]!, false);
    }
    if (to !== undefined) show(uprights[to]!, false);
  }
  const stretches = [...uprights, ...railways].filter((s) => s.shows.length > 0);
  const joints = jointVertices(stretches, ends, bar?.vertex);
  const whole = merged(stretches, ends.length, bar !== undefined);
  const dots = bar
    ? []
    : xs.filter((x) => stretches.filter((s) => s.a === place(x) || s.b === place(x)).length > 2).map((x): Point => [x, yAt(x)]);
  return { ...splitLines(whole, joints, net.index, isClear), dots };
}

/** Splices stand where most of what they join is. */
function placesOfJoints(
  strands: readonly Strand[],
  ends: readonly NetEnd[],
  endOf: ReadonlyMap<string, number>,
  xs: readonly number[],
): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const tied = new Map<string, number[]>();
  for (const { along } of strands) {
    const [u, v] = [along[0]!, along.at(-1)!];
    for (const [joint, other] of [
      [u, v],
      [v, u],
    ] as const)
      if (!endOf.has(joint)) tied.set(joint, [...(tied.get(joint) ?? []), ...(endOf.has(other) ? [ends[endOf.get(other)!]!.x] : [])]);
  }
  for (const [joint, at] of tied) {
    const sorted = at.sort((a, b) => a - b);
    found.set(joint, sorted[(sorted.length - 1) >> 1] ?? xs[(xs.length - 1) >> 1]!);
  }
  return found;
}

/** The terminal whose volts stand at each joint: at an end its own; on the rail the one at which most of the wires there begin or end. */
function jointVertices(stretches: readonly Stretch[], ends: readonly NetEnd[], barVertex: string | undefined): ReadonlyMap<number, string> {
  const names = new Map<number, string>();
  const counts = new Map<number, Map<string, number>>();
  for (const s of stretches)
    for (const joint of [s.a, s.b]) {
      if (joint < ends.length) names.set(joint, ends[joint]!.vertex);
      else if (barVertex !== undefined) names.set(joint, barVertex);
      else {
        const count = counts.get(joint) ?? new Map<string, number>();
        counts.set(joint, count);
        for (const { way } of s.shows) for (const v of new Set([way.u, way.v])) count.set(v, (count.get(v) ?? 0) + 1);
      }
    }
  for (const [joint, count] of counts) {
    let best = '';
    for (const [v, n] of count) if (best === '' || n > count.get(best)!) best = v;
    names.set(joint, best);
  }
  return names;
}

/** Joins stretches that meet at a bend of the same wires to one line. */
function merged(stretches: readonly Stretch[], endCount: number, isBar: boolean): readonly Stretch[] {
  const lines = [...stretches];
  for (const joint of new Set(stretches.flatMap((s) => [s.a, s.b]))) {
    if (joint < endCount || isBar) continue;
    const here = lines.filter((s) => s.a === joint || s.b === joint);
    if (here.length !== 2) continue;
    const [first, second] = here as [Stretch, Stretch];
    const one = turned(first, first.b === joint);
    const two = turned(second, second.a === joint);
    const points = [...one.points, ...two.points.slice(1)];
    const whole: Stretch = { a: one.a, b: two.b, points: withoutStraight(points), shows: one.shows };
    for (const { way } of one.shows) {
      const at = way.path.findIndex((s) => s === first || s === second);
      way.path.splice(at, way.path.filter((s) => s === first || s === second).length, whole);
    }
    lines.splice(lines.indexOf(first), 1);
    lines.splice(lines.indexOf(second), 1, whole);
  }
  return lines;
}

function turned(s: Stretch, isRight: boolean): Stretch {
  if (isRight) return s;
  return { a: s.b, b: s.a, points: [...s.points].reverse(), shows: s.shows.map(({ way, isForward }) => ({ way, isForward: !isForward })) };
}

function withoutStraight(points: readonly Point[]): Point[] {
  return points.filter((p, k) => {
    const [before, after] = [points[k - 1], points[k + 1]];
    return !before || !after || !((before[0] === p[0] && after[0] === p[0]) || (before[1] === p[1] && after[1] === p[1]));
  });
}
