export type Sector = readonly [number, number];

/** What the chart is drawn from; angles in degrees of key travel, 0° upright as seen at the lock. */
export type KeyChartInput = {
  readonly positions: readonly { readonly name: string; readonly angle: number; readonly springsTo?: string | undefined }[];
  readonly rings: readonly {
    readonly id: string;
    /** Sectors where the contact ought to be closed. */
    readonly ought: readonly Sector[];
    /** Sectors where it is closed, faults in; absent: as it ought. */
    readonly does?: readonly Sector[] | undefined;
  }[];
  /** Outer radius, px. */
  readonly radius: number;
};

/** `missing`: ought to be closed and is not; `added`: closed and ought not. */
export type RingPiece = {
  readonly state: 'closed' | 'missing' | 'added';
  readonly path: string;
  readonly from: number;
  readonly to: number;
};
export type Detent = {
  readonly name: string;
  readonly angle: number;
  readonly mark: string;
  readonly sprung: boolean;
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
};
export type KeyChart = {
  readonly radius: number;
  /** Box of everything drawn, about the centre of the lock. */
  readonly box: { readonly left: number; readonly top: number; readonly width: number; readonly height: number };
  readonly toScale: boolean;
  readonly scalePath: string;
  readonly ticks: readonly string[];
  readonly detents: readonly Detent[];
  readonly springs: readonly { readonly path: string; readonly head: string }[];
  readonly rings: readonly {
    readonly id: string;
    readonly outline: string;
    readonly pieces: readonly RingPiece[];
    readonly labelX: number;
    readonly labelY: number;
  }[];
  readonly inner: string;
  /** Least and greatest angle of travel. */
  readonly travel: Sector;
  /** Degrees on paper, clockwise from upright, for an angle of travel; and back. */
  readonly turn: (angle: number) => number;
  readonly angleAt: (turn: number) => number;
};

/** Above this travel, degrees, the scale is compressed evenly and the chart says so. */
const widest = 120;
const rad = (degrees: number) => (degrees * Math.PI) / 180;
const n = (x: number) => String(Math.round(x * 100) / 100);
type Place = (angle: number, r: number) => readonly [number, number];

/**
 * Geometry of the key arc chart about the centre of the lock; y grows downwards. Numbers in px, angles clockwise from
 * upright. Positions left of upright turn the whole chart. Room for names is that of 18 px type.
 */
export function keyChart(input: KeyChartInput): KeyChart {
  const { positions, radius } = input;
  const angles = positions.map((p) => p.angle);
  const least = Math.min(0, ...angles);
  const last = Math.max(...angles, least + 1);
  const ends = input.rings.flatMap((r) => [...r.ought, ...(r.does ?? [])].map((s) => s[1]));
  const most = Math.min(last + 5, Math.max(last + 3, ...ends));
  const span = last - least;
  const scale = span > widest ? widest / span : 1;
  const turn = (angle: number) => (angle - least) * scale;
  const at: Place = (angle, r) => [r * Math.sin(rad(turn(angle))), -r * Math.cos(rad(turn(angle)))];
  const bow = (r: number, from: number, to: number): string => {
    const [x, y] = at(to, r);
    return `A${n(r)} ${n(r)} 0 ${Math.abs(turn(to) - turn(from)) > 180 ? 1 : 0} ${to > from ? 1 : 0} ${n(x)} ${n(y)}`;
  };
  const stroke = (r: number, from: number, to: number): string => `M${at(from, r).map(n).join(' ')}${bow(r, from, to)}`;
  const arc = (inner: number, outer: number, from: number, to: number): string =>
    `${stroke(outer, from, to)}L${at(to, inner).map(n).join(' ')}${bow(inner, to, from)}Z`;
  const detents = positions.map((p) => detentAt(p, at, turn(p.angle), p.angle === Math.max(...angles), radius, scale));

  const crowded = input.rings.length > 5;
  const pitch = crowded ? 28 : radius < 250 ? 33 : 40;
  const width = crowded ? 20 : radius < 250 ? 24 : 28;
  const rings = input.rings.map((ring, i) => {
    const outer = radius - 24 - pitch * i;
    const inner = outer - width;
    const pieces = pieceSectors(ring.ought, ring.does ?? ring.ought, least, most).map((p) => ({
      ...p,
      path: arc(inner, outer, p.from, p.to),
    }));
    return { id: ring.id, outline: arc(inner, outer, least, most), pieces, labelX: -10, labelY: 5.5 - (inner + outer) / 2 };
  });
  const innermost = radius - 24 - pitch * input.rings.length - 4;

  const longest = Math.max(3, ...input.rings.map((r) => r.id.length));
  const left = -Math.max(44, 12 + longest * 8.8);
  const right = Math.max(
    ...detents.map((d) => d.x + d.name.length * (d.anchor === 'start' ? 11 : d.anchor === 'end' ? 0 : 5.6)),
    radius * Math.sin(rad(Math.min(90, turn(last)))) + 26,
  );
  const bottom = Math.max(36, ...detents.map((d) => d.y + 8), at(most, radius)[1] + 20);
  const top = -radius - 44;
  return {
    radius,
    box: { left, top, width: right - left, height: bottom - top },
    toScale: scale === 1,
    scalePath: stroke(radius, least, last),
    ticks: scale === 1 ? degreeTicks(least, last, angles, radius, at) : [],
    detents,
    springs: positions.flatMap((p) => {
      const home = positions.find((q) => q.name === p.springsTo);
      return home ? [spring(at, p.angle, home.angle, radius, scale)] : [];
    }),
    rings,
    inner: innermost > 60 ? stroke(innermost, least, last) : '',
    travel: [least, last],
    turn,
    angleAt: (degrees) => least + degrees / scale,
  };
}

/** A filled notch pointing inward at the scale; the stop of a sprung position is a plain tick. */
function detentAt(
  p: KeyChartInput['positions'][number],
  at: Place,
  turned: number,
  isLast: boolean,
  radius: number,
  scale: number,
): Detent {
  const sprung = p.springsTo !== undefined;
  const half = 2.4 / scale;
  const [a, b, tip, out] = [
    at(p.angle - half, radius + 12),
    at(p.angle + half, radius + 12),
    at(p.angle, radius),
    at(p.angle, radius + 14),
  ];
  const mark = sprung ? line(tip, out) : `${line(a, b)}L${n(tip[0])} ${n(tip[1])}Z`;
  const common = { name: p.name, angle: p.angle, sprung, mark };
  // The name of a low last stop stands under it, out of the spring's way.
  if (turned > 74 && isLast) return { ...common, x: tip[0] + 4, y: tip[1] + 34, anchor: 'middle' };
  const [x, y] = at(p.angle, radius + 21);
  return turned < 10
    ? { ...common, x: x - 2, y: y - 2, anchor: 'middle' }
    : { ...common, x, y: y + 6 * (1 - Math.cos(rad(turned))), anchor: 'start' };
}

function line(from: readonly [number, number], to: readonly [number, number]): string {
  return `M${n(from[0])} ${n(from[1])}L${n(to[0])} ${n(to[1])}`;
}

/** A tick each degree (where the circle is large enough to read them), longer each fifth, none at the detents. */
function degreeTicks(least: number, last: number, detents: readonly number[], radius: number, at: Place): readonly string[] {
  const ticks: string[] = [];
  for (let a = Math.ceil(least); a <= last; a++) {
    const fifth = a % 5 === 0;
    if ((!fifth && radius <= 200) || detents.some((d) => Math.abs(d - a) < 2.5)) continue;
    ticks.push(line(at(a, radius), at(a, radius + (fifth ? 7 : 3.5))));
  }
  return ticks;
}

/** Zigzag outside the scale from a sprung position back to near its detent, ending in an arrowhead. */
function spring(at: Place, from: number, to: number, radius: number, scale: number): { path: string; head: string } {
  const way = Math.sign(to - from) / scale;
  const [start, end] = [from + way * 3, to - way * 6.5];
  const turns = 2 * Math.max(2, Math.round(Math.abs(end - start) * scale * 0.22));
  const points: string[] = [];
  for (let k = 0; k <= turns; k++) {
    const [x, y] = at(start + ((end - start) * k) / turns, radius + (k === 0 || k === turns ? 14 : k % 2 === 0 ? 8 : 22));
    points.push(`${n(x)} ${n(y)}`);
  }
  const [tip, a, b] = [at(end + way * 2.6, radius + 13), at(end - way * 0.4, radius + 7), at(end - way * 0.4, radius + 20)];
  return { path: `M${points.join('L')}`, head: `${line(tip, a)}L${n(b[0])} ${n(b[1])}Z` };
}

/**
 * Cuts the travel into stretches where a contact closes as it ought, ought to and does not, or closes and ought not.
 * Stretches where it is rightly open are left out.
 */
export function pieceSectors(
  ought: readonly Sector[],
  does: readonly Sector[],
  least: number,
  most: number,
): readonly { readonly state: RingPiece['state']; readonly from: number; readonly to: number }[] {
  const within = (a: number) => Math.min(most, Math.max(least, a));
  const edges = [...new Set([...ought, ...does].flatMap((s) => [within(s[0]), within(s[1])]))].sort((a, b) => a - b);
  const inside = (sectors: readonly Sector[], a: number) => sectors.some((s) => s[0] <= a && a <= s[1]);
  const pieces: { state: RingPiece['state']; from: number; to: number }[] = [];
  for (let k = 0; k + 1 < edges.length; k++) {
    const [from, to] = [edges[k]!, edges[k + 1]!];
    const [should, is] = [inside(ought, (from + to) / 2), inside(does, (from + to) / 2)];
    if (!should && !is) continue;
    const state = should && is ? 'closed' : should ? 'missing' : 'added';
    const before = pieces.at(-1);
    if (before && before.state === state && before.to === from) before.to = to;
    else pieces.push({ state, from, to });
  }
  return pieces;
}
