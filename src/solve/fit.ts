import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import type { Circuit } from '../circuit/circuit.ts';
import type { Dimension } from '../circuit/parameter.ts';
import type { Scene } from '../circuit/scene.ts';
import { type Network, network, type PartChange } from './network.ts';
import { amperesInto, operatingPoint, voltsAt } from './operatingPoint.ts';

/** A value read on the healthy vehicle: volts from `at` to `to`, or the size of the current into `at`. */
export type FitReading = {
  readonly phrase: string;
  readonly scene: Scene;
  readonly of: 'volts' | 'amperes';
  readonly at: string;
  readonly to: string;
  readonly value: number;
};

/** One parameter that the readings have a say in. */
export type Fitted = {
  readonly part: string;
  readonly parameter: string;
  readonly dimension: Dimension;
  readonly before: number;
  readonly after: number;
  readonly least: number;
  readonly most: number;
  /** It would have gone further, had its range let it. */
  readonly atLimit: boolean;
};
export type FitSeen = {
  readonly phrase: string;
  readonly of: 'volts' | 'amperes';
  readonly read: number;
  readonly before: number | null;
  readonly after: number | null;
  /** How far reading and circuit may be apart and still agree. */
  readonly within: number;
  readonly agrees: boolean;
};
export type Fit = {
  readonly figures: readonly Fitted[];
  readonly readings: readonly FitSeen[];
  /** Readings that do not go together; leaving any one of these out, the others fit. Empty when all agree, or when no single one is to blame. */
  readonly disagree: readonly string[];
  readonly changes: readonly PartChange[];
};

/** What may be apart in a reading, one standard deviation. Estimates: a workshop meter, and leads that are not at the very terminal. */
const spread = {
  volts: (read: number) => 0.02 + 0.005 * Math.abs(read),
  amperes: (read: number) => 0.0002 + 0.03 * Math.abs(read),
};
/** A reading agrees within so many standard deviations. */
const agreesWithin = 3;
/** How far a figure may move as a share of itself. Estimates: a given one is a nameplate, a default only the usual. */
const reach = { given: 0.2, assumed: 2, voltage: 0.05 } as const;
/** Figures fitted at once: those that the readings depend on most. More would follow the noise. */
const mostFigures = 12;
/** Standard deviation of a figure before anything was read, as a share of its reach. */
const prior = 0.5;
/** Share of its reach by which a figure is moved to see what hangs on it. */
const nudge = 0.05;
const rounds = 14;

type Figure = Omit<Fitted, 'after' | 'atLimit'>;

/**
 * Parameters of the parts fitted to readings on the healthy vehicle, each within its range: bounded least squares by
 * Levenberg and Marquardt, with every figure drawn towards what the circuit said, so that readings that say nothing of
 * it leave it alone.
 *
 * @param readings at least one; a reading at a terminal that floats or does not exist counts as off
 * Cost: about 200 solutions per reading, a few seconds for a whole vehicle.
 */
export function fitted(circuit: Circuit, readings: readonly FitReading[]): Fit {
  const figures = weighty(circuit, readings, candidates(circuit));
  const at = solve(circuit, readings, figures);
  const changes = changesFor(figures, at);
  const before = predicted(circuit, readings, []);
  const after = predicted(circuit, readings, changes);
  const seen = readings.map((r, k) => seenOf(r, before[k]!, after[k]!));
  const disagree = seen.every((s) => s.agrees) ? [] : culprits(circuit, readings, figures);
  return {
    figures: figures.map((f, k) => ({ ...f, after: figureAt(f, at[k]!), atLimit: Math.abs(at[k]!) > 0.999 })),
    readings: seen,
    disagree,
    changes,
  };
}

function seenOf({ phrase, of, value }: FitReading, before: number | null, after: number | null): FitSeen {
  const within = agreesWithin * spread[of](value);
  return { phrase, of, read: value, before, after, within, agrees: after !== null && Math.abs(after - value) <= within };
}

/** Every quantity of a part that could be otherwise on the vehicle, with its range. */
function candidates(circuit: Circuit): readonly Figure[] {
  return [...circuit.parts.values()].flatMap((part) =>
    Object.entries(part.kind.parameters).flatMap(([parameter, p]): readonly Figure[] => {
      const before = part.params[parameter];
      if (p.as !== 'quantity' || typeof before !== 'number' || !Number.isFinite(before)) return [];
      // A nominal voltage is what the vehicle is called by, no measure of it.
      if (p.source?.startsWith('nominal voltage')) return [];
      const isGiven = part.given.has(parameter);
      // The length of a wire that the file gives was measured; those of ideal joints mean nothing.
      if (part.kind.isWire === true && (isGiven || parameter !== 'length')) return [];
      const [floor, ceiling] = [p.min ?? 0, p.max ?? Number.POSITIVE_INFINITY];
      if (p.dimension === 'share')
        return [{ part: part.id, parameter, dimension: p.dimension, before, least: floor, most: Math.min(1, ceiling) }];
      const up = p.dimension === 'voltage' ? reach.voltage : isGiven ? reach.given : reach.assumed;
      const least = Math.max(floor, before / (1 + up));
      const most = Math.min(ceiling, before * (1 + up));
      return least < most ? [{ part: part.id, parameter, dimension: p.dimension, before, least, most }] : [];
    }),
  );
}

/**
 * A figure at a place of its range: -1 the least, 0 as the circuit says, 1 the most. One that stands at its most, such
 * as a full battery, goes down either way: the optimiser looks upwards first.
 */
function figureAt({ before, least, most }: Figure, at: number): number {
  if (most === before) return before - Math.abs(at) * (before - least);
  return at >= 0 ? before + at * (most - before) : before + at * (before - least);
}

function changesFor(figures: readonly Figure[], at: readonly number[]): readonly PartChange[] {
  const patches = new Map<string, Record<string, number>>();
  for (const [k, figure] of figures.entries()) {
    if (at[k] === 0) continue;
    const patch = patches.get(figure.part) ?? {};
    patch[figure.parameter] = figureAt(figure, at[k]!);
    patches.set(figure.part, patch);
  }
  return [...patches].map(([part, patch]) => ({ part, change: { do: 'params', patch } }));
}

/** What the circuit with these changes would show at each reading; null where nothing can be read. */
function predicted(circuit: Circuit, readings: readonly FitReading[], changes: readonly PartChange[]): readonly (number | null)[] {
  const points = new Map<Scene, ReturnType<typeof operatingPoint>>();
  const nets = new Map<string, Network>();
  return readings.map(({ scene, of, at, to }) => {
    let point = points.get(scene);
    if (!point) {
      const { apart, bridged, swapped } = scene;
      const key = JSON.stringify([apart, bridged, swapped]);
      const net = nets.get(key) ?? network(circuit, changes, { apart, bridged, swapped });
      nets.set(key, net);
      point = operatingPoint(net, scene);
      points.set(scene, point);
    }
    if (of === 'amperes') return Math.abs(amperesInto(point, at));
    const [high, low] = [voltsAt(point, at), voltsAt(point, to)];
    return high === null || high === undefined || low === null || low === undefined ? null : high - low;
  });
}

/** The figures that the readings depend on, the strongest first. */
function weighty(circuit: Circuit, readings: readonly FitReading[], figures: readonly Figure[]): readonly Figure[] {
  const base = predicted(circuit, readings, []);
  const scored = figures.map((figure) => {
    const up = figure.most > figure.before ? nudge : -nudge;
    const moved = predicted(circuit, readings, changesFor([figure], [up]));
    const score = readings.reduce((sum, { of, value }, k) => {
      const [a, b] = [base[k] ?? null, moved[k] ?? null];
      return a === null || b === null ? sum : sum + Math.abs(b - a) / nudge / spread[of](value);
    }, 0);
    return { figure, score };
  });
  return scored
    .filter((s) => s.score > 0.2)
    .sort((a, b) => b.score - a.score)
    .slice(0, mostFigures)
    .map((s) => s.figure);
}

/** Places in their ranges at which the figures fit the readings best. */
function solve(circuit: Circuit, readings: readonly FitReading[], figures: readonly Figure[]): readonly number[] {
  if (figures.length === 0 || readings.length === 0) return figures.map(() => 0);
  const count = readings.length + figures.length;
  // The optimiser takes points of a curve: the readings, then what each figure was thought to be.
  const x = Array.from({ length: count }, (_, k) => k);
  const y = x.map((k) => {
    const r = readings[k];
    return r ? r.value / spread[r.of](r.value) : 0;
  });
  const curve = (at: number[]) => {
    const shown = predicted(circuit, readings, changesFor(figures, at));
    return (k: number): number => {
      const r = readings[k];
      return r ? (shown[k] ?? 0) / spread[r.of](r.value) : at[k - readings.length]! / prior;
    };
  };
  const found = levenbergMarquardt({ x, y }, remembering(curve), {
    initialValues: figures.map(() => 0),
    minValues: figures.map(() => -1),
    maxValues: figures.map(() => 1),
    gradientDifference: nudge,
    damping: 0.1,
    maxIterations: rounds,
    errorTolerance: 1e-6,
  });
  return found.parameterValues.map((at) => Math.min(1, Math.max(-1, at)));
}

/** The optimiser asks the curve of the same figures point by point; they are solved once. */
function remembering(curve: (at: number[]) => (k: number) => number): (at: number[]) => (k: number) => number {
  const known = new Map<string, (k: number) => number>();
  return (at) => {
    const key = at.join();
    const had = known.get(key);
    if (had) return had;
    const fresh = curve(at);
    if (known.size > 100) known.clear();
    known.set(key, fresh);
    return fresh;
  };
}

/** Readings without which all others fit. */
function culprits(circuit: Circuit, readings: readonly FitReading[], figures: readonly Figure[]): readonly string[] {
  if (readings.length < 2 || readings.length > 20) return [];
  return readings.flatMap((left, k) => {
    const others = readings.filter((_, j) => j !== k);
    const after = predicted(circuit, others, changesFor(figures, solve(circuit, others, figures)));
    return others.every((r, j) => seenOf(r, null, after[j] ?? null).agrees) ? [left.phrase] : [];
  });
}
