import type { Layout, PlacedWire, Point } from './layout/layout.ts';
import type { Figures, Moment } from './moment.ts';
import { chevronPlaces, ribbonWidth, showsChevrons } from './ribbon.ts';

/** One stretch of conductor as it is to be drawn. */
export type Ribbon = {
  readonly points: readonly Point[];
  readonly d: string;
  /** Core width, px. */
  readonly width: number;
  /** Potential at its two ends as shares of the supply, 0..1; undefined: tied to nothing. */
  readonly potential: readonly [number, number] | undefined;
  readonly volts: readonly [number | null, number | null];
  /** Amperes, positive from its first point to its last. */
  readonly amperes: number;
  readonly chevrons: readonly Chevron[];
  /** Differs from the healthy circuit: by over 0.2 V, or by over half of the current. */
  readonly changed: boolean;
  /** On the way of the chosen load's current. */
  readonly onWay: boolean;
};
/** `turn`: degrees clockwise from pointing right. */
export type Chevron = { readonly x: number; readonly y: number; readonly turn: number };

/** Steps within one wire that are worth blending, V. */
const blend_V = 0.1;
/** What makes a stretch a changed one. */
const changed_V = 0.2;
const changedShare = 0.5;
/** Currents below this are nothing to anybody, A: leaks of a meter. */
const nothing_A = 1e-6;

/** All stretches of a layout with potential, current, direction and what the fault changed; in the layout's order. */
export function ribbonsOf(layout: Layout, moment: Moment, showing: 'healthy' | 'faulty' | 'difference', least = 0.01): readonly Ribbon[] {
  const seen = showing === 'healthy' ? moment.healthy : moment.is;
  const way = wayElements(moment);
  return layout.wires.map((wire) => {
    const amperes = along(wire, seen);
    const volts = [seen.volts.get(wire.from) ?? null, seen.volts.get(wire.to) ?? null] as const;
    return {
      points: wire.points,
      d: pathOf(wire.points),
      width: ribbonWidth(amperes, least),
      potential: shares(volts, moment.supply),
      volts,
      amperes,
      chevrons: showsChevrons(amperes, least) ? chevronsOf(wire.points, amperes < 0) : [],
      changed: showing === 'difference' && moment.is !== moment.healthy && differs(wire, moment),
      onWay: isOnWay(wire, amperes, way, seen),
    };
  });
}

/** A stretch is on the way when it shows one of its elements, and what that carries is not for the most part going back beside it (two wires of a net through one line). */
function isOnWay(wire: PlacedWire, amperes: number, way: ReadonlySet<string>, { amperes: through }: Figures): boolean {
  const own = wire.carries.filter((c) => way.has(c.element)).map((c) => Math.abs(through.get(c.element) ?? 0));
  return own.length > 0 && Math.abs(amperes) > Math.max(nothing_A, Math.max(...own) / 2);
}

/** Current of a stretch from its first point to its last: the sum of what it carries. */
export function along(wire: PlacedWire, figures: Figures): number {
  return wire.carries.reduce((sum, c) => sum + c.sign * (figures.amperes.get(c.element) ?? 0), 0);
}

function shares([from, to]: readonly [number | null, number | null], supply: number): readonly [number, number] | undefined {
  if (from === null || to === null) return undefined;
  const share = (volts: number) => Math.min(1, Math.abs(volts) / Math.max(supply, 1e-9));
  return Math.abs(from - to) > blend_V ? [share(from), share(to)] : [share(from), share(from)];
}

function differs(wire: PlacedWire, { is, healthy }: Moment): boolean {
  for (const terminal of [wire.from, wire.to]) {
    const [now, before] = [is.volts.get(terminal) ?? null, healthy.volts.get(terminal) ?? null];
    // A stretch that is tied to nothing carries no voltage either way, but it no longer is what it was.
    if ((now === null) !== (before === null)) return Math.abs(now ?? before ?? 0) > changed_V;
    if (now !== null && before !== null && Math.abs(now - before) > changed_V) return true;
  }
  const [now, before] = [along(wire, is), along(wire, healthy)];
  const larger = Math.max(Math.abs(now), Math.abs(before));
  return larger > 0.01 && Math.abs(now - before) > changedShare * larger;
}

function wayElements({ ways }: Moment): ReadonlySet<string> {
  return new Set(ways ? [...ways.feed.elements, ...ways.back.elements, { id: ways.load }].map((e) => e.id) : []);
}

function chevronsOf(points: readonly Point[], backwards: boolean): readonly Chevron[] {
  const found: Chevron[] = [];
  for (let k = 0; k + 1 < points.length; k++) {
    const [[x0, y0], [x1, y1]] = [points[k]!, points[k + 1]!];
    const length = Math.abs(x1 - x0) + Math.abs(y1 - y0);
    const heading = (Math.atan2(y1 - y0, x1 - x0) * 180) / Math.PI;
    for (const at of chevronPlaces(length)) {
      const share = at / length;
      found.push({ x: x0 + (x1 - x0) * share, y: y0 + (y1 - y0) * share, turn: backwards ? heading + 180 : heading });
    }
  }
  return found;
}

export function pathOf(points: readonly Point[]): string {
  return points.map(([x, y], k) => `${k === 0 ? 'M' : 'L'}${Math.round(x * 10) / 10} ${Math.round(y * 10) / 10}`).join('');
}

/** A crossing with the direction of the wire on top. */
export type CrossingDrawn = {
  readonly x: number;
  readonly y: number;
  readonly over: number;
  readonly under: number;
  readonly overLies: boolean;
};

/** Where wires pass over each other; `overLies`: the upper one runs level there. */
export function crossingsOf(layout: Layout): readonly CrossingDrawn[] {
  return layout.crossings.map((c) => {
    const points = layout.wires[c.over]?.points ?? [];
    const overLies = points.some((p, k) => {
      const next = points[k + 1];
      return next !== undefined && p[1] === next[1] && Math.abs(p[1] - c.y) < 0.6 && (p[0] - c.x) * (next[0] - c.x) <= 0;
    });
    return { ...c, overLies };
  });
}

/** Where each terminal stands on the drawing, for leads: ends of symbols first, then ends of wires; and the middle of each wire. */
export function terminalPoints(layout: Layout): ReadonlyMap<string, Point> {
  const places = new Map<string, Point>();
  for (const bar of layout.bars) places.set(bar.terminal, bar.sign ?? [bar.x1, bar.y]);
  for (const wire of layout.wires) {
    const [first, last] = [wire.points[0], wire.points.at(-1)];
    const [a, b] = wire.points;
    for (const id of wire.wires) if (a && b && !places.has(id)) places.set(id, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
    if (first && !places.has(wire.from)) places.set(wire.from, first);
    if (last && !places.has(wire.to)) places.set(wire.to, last);
  }
  for (const pole of layout.poles) {
    places.set(pole.top, [pole.x, pole.box.y]);
    places.set(pole.bottom, [pole.x, pole.box.y + pole.box.height]);
  }
  return places;
}

/** The next piece from one in a direction, for the arrow keys: near ones first, those in line before those beside. */
export function neighbour(layout: Layout, from: string | undefined, way: readonly [number, number]): string | undefined {
  const here = layout.poles.find((p) => p.id === from);
  if (!here) return layout.poles[0]?.id;
  let best: { id: string; far: number } | undefined;
  for (const pole of layout.poles) {
    const [dx, dy] = [pole.x - here.x, pole.y - here.y];
    const ahead = dx * way[0] + dy * way[1];
    if (ahead < 4) continue;
    const aside = Math.abs(dx * way[1]) + Math.abs(dy * way[0]);
    const far = ahead + 2.5 * aside;
    if (!best || far < best.far) best = { id: pole.id, far };
  }
  return best?.id;
}

/** The terminal nearest to a point, within `reach` px. */
export function terminalAt(places: ReadonlyMap<string, Point>, [x, y]: Point, reach = 40): string | undefined {
  let best: { name: string; far: number } | undefined;
  for (const [name, at] of places) {
    const far = Math.hypot(at[0] - x, at[1] - y);
    if (far <= reach && name.includes('.') && (!best || far < best.far)) best = { name, far };
  }
  return best?.name;
}
