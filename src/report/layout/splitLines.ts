import type { Carried, PlacedPin, PlacedWire, Point } from './layout.ts';
import type { Edge } from './nets.ts';
import type { Strand } from './strands.ts';

/** Whether nothing else comes nearer than `room` px to a place on a level or upright run. */
export type IsClear = (at: Point, isFlat: boolean, room: number) => boolean;

/** A run of the drawn tree between two joints: an upright from an end to the rail, or a piece of the rail. */
export type Stretch = { readonly a: number; readonly b: number; points: Point[]; readonly shows: Shown[] };
/** A strand (or an inner conductor) on a stretch; `isForward` when it runs from the stretch's a to its b. */
export type Shown = { readonly way: Way; readonly isForward: boolean };
export type Way = {
  readonly strand: Strand | undefined;
  readonly carried: readonly Carried[];
  readonly u: string;
  readonly v: string;
  readonly path: Stretch[];
};

/** Splits the line that alone shows a strand at the strand's pins and joints, and writes out what every line shows. */
export function splitLines(
  lines: readonly Stretch[],
  joints: ReadonlyMap<number, string>,
  net: number,
  isClear: IsClear,
): { wires: readonly PlacedWire[]; pins: readonly PlacedPin[] } {
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
