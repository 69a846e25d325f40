import { amperesInto, type OperatingPoint } from '../solve/operatingPoint.ts';

/** Who takes how much of a battery's current. */
export type Taken = {
  /** Out of the supplies, A. */
  readonly amperes: number;
  /** Share of each part, A; they sum to `amperes`. */
  readonly byPart: ReadonlyMap<string, number>;
  /** Round inside the supplies' own terminals, A; not in `amperes`. */
  readonly inside: number;
};

/** A piece that drops less than this share of the battery's volts only passes current on (estimate: a lamp on a bad joint still takes the rest). */
const passing = 0.05;

/** Under this a battery gives nothing: its own joint is open, V. */
const dead_V = 1e-3;

type Flow = { readonly from: string; readonly to: string; readonly amperes: number; readonly watts: number; readonly owner: string };

/**
 * Shares the supplied power among the parts: P over the volts of the whole battery is a part's draw, so draws sum to
 * the current by the balance of energy (Tellegen), whatever hangs in series or side by side. What wires, fuses and
 * closed contacts lose is counted with the parts that they feed: on its way down from plus the loss goes with the
 * current, in its proportions, to the first piece that takes a real share of the volts; what meets none goes up again.
 *
 * Source: Tellegen's theorem; proportional sharing at a node is a convention.
 * Cost: near linear in branches.
 */
export function takenAt(at: OperatingPoint): Taken {
  const { flows, potential, supplied, volts, inside } = flowsAt(at);
  if (!(supplied > 0 && volts > dead_V)) return { amperes: 0, byPart: new Map(), inside };
  const watts = new Map<string, number>();
  const add = (part: string, more: number) => watts.set(part, (watts.get(part) ?? 0) + more);
  const level = (v: string) => potential.get(v) ?? 0;
  const down = [...flows].sort((a, b) => level(b.from) - level(a.from));
  const passes = (f: Flow) => f.watts < passing * volts * f.amperes;
  for (const f of down) if (!passes(f)) add(f.owner, f.watts);
  const carried = carry(
    down,
    (f) => f.from,
    (f) => f.to,
    passes,
    (f) => f.watts,
    add,
  );
  const up = [...flows].sort((a, b) => level(a.to) - level(b.to));
  const left = carry(
    up,
    (f) => f.to,
    (f) => f.from,
    passes,
    () => 0,
    add,
    carried,
  );
  // Lost in pieces that all pass: nobody takes it but they themselves.
  const stray = [...left.values()].reduce((sum, w) => sum + w, 0);
  const lost = flows.filter(passes).reduce((sum, f) => sum + f.watts, 0);
  if (stray > 1e-9 * supplied && lost > 0) for (const f of flows) if (passes(f)) add(f.owner, (stray * f.watts) / lost);
  const amperes = supplied / volts;
  const total = [...watts.values()].reduce((sum, w) => sum + w, 0);
  return { amperes, byPart: new Map([...watts].map(([part, w]) => [part, (amperes * w) / total])), inside };
}

/**
 * Takes losses along with the current: each point hands what it got to the flows that leave it, by their amperes; a
 * flow that passes hands it on with its own, one that takes keeps it.
 *
 * @returns what ends where no flow leaves
 */
function carry(
  ordered: readonly Flow[],
  near: (f: Flow) => string,
  far: (f: Flow) => string,
  passes: (f: Flow) => boolean,
  own: (f: Flow) => number,
  keep: (part: string, watts: number) => void,
  start: ReadonlyMap<string, number> = new Map(),
): Map<string, number> {
  const leaving = new Map<string, number>();
  for (const f of ordered) leaving.set(near(f), (leaving.get(near(f)) ?? 0) + f.amperes);
  const held = new Map(start);
  for (const f of ordered) {
    const share = ((held.get(near(f)) ?? 0) * f.amperes) / leaving.get(near(f))!;
    if (passes(f)) held.set(far(f), (held.get(far(f)) ?? 0) + share + own(f));
    else keep(f.owner, share);
  }
  return new Map([...held].filter(([point]) => !leaving.has(point)));
}

/** The currents of an instant between points of equal volts, each from the higher to the lower, without those inside a supply. */
function flowsAt(at: OperatingPoint) {
  const { network: net } = at;
  // An exact supply joins two points with an offset: its current is in no branch.
  const exact = new Set(net.branches.flatMap((b) => (b.is === 'source' && b.from === b.to ? [b.part] : [])));
  const supplies = new Map(
    net.members.flatMap(({ part }) => {
      const ends = part.kind.supply?.(part)?.map((t) => `${part.id}.${t}`) as [string, string] | undefined;
      // A generator that stands still is no supply: what its rectifier lets back is drawn.
      return ends && (part.kind.store !== undefined || exact.has(part.id) || amperesInto(at, ends[0]) < 0)
        ? [[part.id, ends] as const]
        : [];
    }),
  );
  const potential = new Map<string, number>();
  const points = new Map<string, string>();
  /** Terminals on one node stand apart by an exact supply's volts. */
  const point = (terminal: string, node: number): string => {
    const known = points.get(terminal);
    if (known !== undefined) return known;
    const offset = net.offsetOf.get(terminal) ?? 0;
    const name = `${node} ${offset}`;
    potential.set(name, at.nodeVolts[node]! + offset);
    points.set(terminal, name);
    return name;
  };
  const flows: Flow[] = [];
  let wattsInside = 0;
  for (const [k, b] of net.branches.entries()) {
    const amperes = at.amperes[k]!;
    const drop = at.nodeVolts[b.from]! - at.nodeVolts[b.to]! + b.offset;
    const watts = drop * amperes;
    const owner = b.part;
    const ends = supplies.get(owner);
    // A supply's own elements give; what a fault lays across them does not.
    const own = ends !== undefined && !b.id.startsWith(`${owner}.~`);
    if (own || !(watts > 0)) continue;
    if (ends?.includes(b.fromTerminal) && ends.includes(b.toTerminal)) {
      wattsInside += watts;
      continue;
    }
    const [from, to] = [point(b.fromTerminal, b.from), point(b.toTerminal, b.to)];
    flows.push(drop > 0 ? { from, to, amperes, watts, owner } : { from: to, to: from, amperes: -amperes, watts, owner });
  }
  const levels = [...supplies.values()].flat().flatMap((t) => {
    const node = net.nodeOf.get(t);
    // A battery that hangs on nothing still has its own volts.
    return node === undefined ? [] : [at.nodeVolts[node]! + (net.offsetOf.get(t) ?? 0)];
  });
  const volts = levels.length === 0 ? 0 : Math.max(...levels) - Math.min(...levels);
  const supplied = flows.reduce((sum, f) => sum + f.watts, 0);
  return { flows, potential, supplied, volts, inside: volts > 0 ? wattsInside / volts : 0 };
}
