import type { Carried, PlacedPin, PlacedWire, Point } from './layout.ts';
import type { Edge, Net } from './nets.ts';
import { type Strand, strandsOf } from './strands.ts';

/** Where a net ends at a piece or a frame. `ways` are the pieces' currents there, with sign +1 where they leave the net. */
export type NetEnd = { readonly x: number; readonly y: number; readonly vertex: string; readonly ways: readonly Carried[] };

export type Drawn = { readonly wires: readonly PlacedWire[]; readonly pins: readonly PlacedPin[]; readonly dots: readonly Point[] };

/** Whether nothing else comes nearer than `room` px to a place on a level or upright run. */
export type IsClear = (at: Point, isFlat: boolean, room: number) => boolean;

/** A run of the drawn tree between two joints: an upright from an end to the rail, or a piece of the rail. */
type Stretch = { readonly a: number; readonly b: number; points: Point[]; readonly shows: Shown[] };
/** A strand (or an inner conductor) on a stretch; `isForward` when it runs from the stretch's a to its b. */
type Shown = { readonly way: Way; readonly isForward: boolean };
type Way = {
  readonly strand: Strand | undefined;
  readonly carried: readonly Carried[];
  readonly u: string;
  readonly v: string;
  readonly path: Stretch[];
};

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
  return { ...split(whole, joints, net.index, isClear), dots };
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

/** Splits the line that alone shows a strand at the strand's pins and joints, and writes out what every line shows. */
function split(lines: readonly Stretch[], joints: ReadonlyMap<number, string>, net: number, isClear: IsClear): Omit<Drawn, 'dots'> {
  const wires: PlacedWire[] = [];
  const pins: PlacedPin[] = [];
  const home = new Map<Way, Stretch>();
  for (const line of lines) {
    const only = line.shows.length === 1 ? line.shows[0]!.way : undefined;
    if (!only?.strand) continue;
    const known = home.get(only);
    if (known === undefined || longestRun(line.points).length > longestRun(known.points).length) home.set(only, line);
  }
  for (const line of lines) {
    const only = line.shows[0]!;
    const ends = endsOf(line, joints);
    if (home.get(only.way) === line && only.way.strand!.edges.length > 1) {
      const pieces = splitAtPins(line, only, ends, net, isClear);
      wires.push(...pieces.wires);
      pins.push(...pieces.pins);
      continue;
    }
    const seen = line.shows.map((s) => edgeHere(s, line, home.get(s.way)));
    wires.push({
      net,
      points: line.points,
      ...ends,
      wires: [...new Set(seen.flatMap((s) => (s.wire ? [s.wire] : [])))],
      carries: seen.flatMap((s) => s.carries),
    });
  }
  return { wires, pins };
}

/** Terminals whose volts stand at a line's ends. A line that shows one strand alone never borrows the volts of a third point that it passes. */
function endsOf(line: Stretch, joints: ReadonlyMap<number, string>): { from: string; to: string } {
  const [from, to] = [joints.get(line.a)!, joints.get(line.b)!];
  const [only, more] = line.shows;
  if (!only?.way.strand || more) return { from, to };
  const [u, v] = only.isForward ? [only.way.u, only.way.v] : [only.way.v, only.way.u];
  return { from: from === u || from === v ? from : u, to: to === u || to === v ? to : v };
}

/** The wire of a strand that a line shows besides others: the first one before the strand's own line, the last one behind it. */
function edgeHere(
  { way, isForward }: Shown,
  line: Stretch,
  home: Stretch | undefined,
): { wire: string | undefined; carries: readonly Carried[] } {
  if (!way.strand) return { wire: undefined, carries: isForward ? way.carried : way.carried.map(reversed) };
  const real = way.strand.edges.filter((e) => !e.edge.isPin);
  const isBehind = home !== undefined && way.path.indexOf(line) > way.path.indexOf(home);
  const seen = (isBehind ? real.at(-1) : real[0]) ?? way.strand.edges[0]!;
  return { wire: seen.edge.isPin ? undefined : seen.edge.part, carries: [carriedBy(seen.edge, seen.isForward === isForward)] };
}

function carriedBy(edge: Edge, isForward: boolean): Carried {
  return { element: edge.element, sign: isForward ? edge.sense : edge.sense === 1 ? -1 : 1 };
}

function reversed({ element, sign }: Carried): Carried {
  return { element, sign: sign === 1 ? -1 : 1 };
}

function longestRun(points: readonly Point[]): { readonly at: number; readonly length: number } {
  let best = { at: 0, length: -1 };
  for (let k = 0; k + 1 < points.length; k++) {
    const isFlat = points[k]![1] === points[k + 1]![1];
    const length = Math.abs(points[k + 1]![0] - points[k]![0]) + Math.abs(points[k + 1]![1] - points[k]![1]);
    // Marks read best on an upright; a flat run must be much longer to be taken.
    const counts = isFlat ? length / 2 : length;
    if (counts > best.length) best = { at: k, length: counts };
  }
  return best;
}

function splitAtPins(
  line: Stretch,
  { way, isForward }: Shown,
  ends: { from: string; to: string },
  net: number,
  isClear: IsClear,
): { wires: PlacedWire[]; pins: PlacedPin[] } {
  const strand = way.strand!;
  const edges = isForward ? strand.edges : [...strand.edges].reverse().map((e) => ({ edge: e.edge, isForward: !e.isForward }));
  const along = isForward ? strand.along : [...strand.along].reverse();
  const { at } = longestRun(line.points);
  const [p, q] = [line.points[at]!, line.points[at + 1]!];
  // A pin is a place; two wires joined without a pin meet at a place too.
  const places: { before: number; after: number; pin: string | undefined; part: string }[] = [];
  for (const [k, { edge }] of edges.entries()) {
    const last = places.at(-1);
    if (edge.isPin) places.push({ before: k, after: k + 1, pin: edge.id, part: edge.part });
    else if (k > 0 && !edges[k - 1]!.edge.isPin && last?.after !== k) places.push({ before: k, after: k, pin: undefined, part: '' });
  }
  const wires: PlacedWire[] = [];
  const pins: PlacedPin[] = [];
  let points: Point[] = line.points.slice(0, at + 1);
  let from = ends.from;
  let first = 0;
  const close = (to: string, next: number) => {
    const own = edges.slice(first, next).find((e) => !e.edge.isPin);
    // Behind a pin at the very end of a strand there is no wire any more, only the pin's own current.
    const seen = own ?? edges[first - 1] ?? edges[next];
    wires.push({
      net,
      points,
      from,
      to,
      wires: own ? [own.edge.part] : [],
      carries: seen ? [carriedBy(seen.edge, seen.isForward)] : [],
    });
  };
  for (const [k, mark] of places.entries()) {
    const spot = spotOn(p, q, (k + 1) / (places.length + 1), isClear);
    points = [...points, spot];
    close(along[mark.before]!, mark.before);
    if (mark.pin !== undefined) pins.push({ id: mark.pin, part: mark.part, x: spot[0], y: spot[1], flat: p[1] === q[1] });
    points = [spot];
    from = along[mark.after]!;
    first = mark.after;
  }
  points = [...points, ...line.points.slice(at + 1)];
  close(ends.to, edges.length);
  return { wires, pins };
}

/** The place nearest to a share of a straight run that is clear; the share itself when none is. */
function spotOn(p: Point, q: Point, share: number, isClear: IsClear): Point {
  const length = Math.abs(q[0] - p[0]) + Math.abs(q[1] - p[1]);
  const on = (k: 0 | 1, along: number) => (p[k] === q[k] ? p[k] : Math.round(p[k] + ((q[k] - p[k]) * along) / length));
  const at = (along: number): Point => [on(0, along), on(1, along)];
  const wanted = share * length;
  // A mark needs ten pixels; where that cannot be had, at least it does not stand on a crossing.
  for (const room of [10, 3])
    for (let step = 0; step <= 40; step++)
      for (const along of [wanted + room * 0.6 * step, wanted - room * 0.6 * step])
        if (along > room && along < length - room && isClear(at(along), p[1] === q[1], room)) return at(along);
  return at(wanted);
}
