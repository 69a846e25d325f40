import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { type EngineWord, engineAfter } from '../play/engineMotion.ts';
import type { Corner, PlayEvent, Sample } from '../play/moment.ts';
import type { Played } from '../play/play.ts';
import type { LoadSeen } from '../solve/loads.ts';
import { type OperatingPoint, voltsAt } from '../solve/operatingPoint.ts';

/** A stretch of time in which one word holds, s. */
export type Stretch<W extends string = string> = { readonly from: number; readonly to: number; readonly word: W };
/** A value over time: straight between two points. Two points of one time are a step; null where nothing is known. */
export type Curve = readonly { readonly t: number; readonly value: number | null }[];

export type LoadStrip = { readonly id: string; readonly name: string; readonly stretches: readonly Stretch<LoadSeen['verdict']>[] };

/** A played story as a strip chart, a list or a page shows it. Plain data. */
export type PlayView = {
  readonly title: string;
  readonly seconds: number;
  readonly steps: readonly { readonly t: number; readonly text: string }[];
  readonly key?: { readonly travel: readonly Corner[]; readonly positions: readonly { readonly name: string; readonly angle: number }[] };
  readonly engine?: { readonly stretches: readonly Stretch<EngineWord>[]; readonly speed: Curve };
  /** Volts between the two poles of every supply, in file order, and what a battery has left. */
  readonly supplies: readonly { readonly id: string; readonly name: string; readonly volts: Curve; readonly charge?: number }[];
  /** Volts of the chosen terminals against ground. */
  readonly terminals: readonly { readonly terminal: string; readonly volts: Curve }[];
  /** Every load, in file order. */
  readonly loads: readonly LoadStrip[];
  readonly events: readonly PlayEvent[];
  /** Names of the parts that events tell of. */
  readonly names: Readonly<Record<string, string>>;
  readonly bound: number;
  /** Parts that made it end before the story did. */
  readonly endedBy?: readonly string[];
};

/** Points of the engine's speed between two samples; it moves for about this long after anything changes, s. */
const speedPoints = 12;
const speedSettles_s = 3;

/**
 * What a strip chart of a played story shows.
 *
 * @param terminals chosen terminals, `S1.15`; unknown ones are left out
 */
export function playView(played: Played, circuit: Circuit, terminals: readonly string[] = []): PlayView {
  const { samples, events, steps, travel, bound, chatters, end } = played;
  const lock = keySwitchOf(circuit);
  const supplies = [...circuit.parts.values()].flatMap((part) => {
    const ends = part.kind.store === undefined ? undefined : part.kind.supply?.(part);
    if (!ends) return [];
    const [plus, minus] = ends.map((t) => `${part.id}.${t}`);
    const charge = end.states.get(part.id)?.['charge'];
    const volts = curveOf(samples, ({ at }) => difference(at, plus!, minus!));
    return [{ id: part.id, name: nameOf(circuit, part.id), volts, ...(typeof charge === 'number' && { charge }) }];
  });
  const known = terminals.filter((t) => samples[0] && voltsAt(samples[0].at, t) !== undefined);
  return {
    title: circuit.title,
    seconds: end.t - (samples[0]?.t ?? end.t),
    steps,
    ...(lock && { key: { travel, positions: lock.model.positions.map(({ name, angle }) => ({ name, angle })) } }),
    ...(circuit.engine && {
      engine: { stretches: stretchesOf(samples, (s) => s.engine as EngineWord, end.t), speed: speedOf(samples) },
    }),
    supplies,
    terminals: known.map((terminal) => ({ terminal, volts: curveOf(samples, ({ at }) => voltsAt(at, terminal) ?? null) })),
    loads: (samples[0]?.loads ?? []).map(({ id }, k) => ({
      id,
      name: nameOf(circuit, id),
      stretches: stretchesOf(
        samples,
        (s) => (s.roundFrom !== undefined && varies(samples, s, k) ? 'chatters' : s.loads[k]!.verdict),
        end.t,
      ),
    })),
    events,
    names: Object.fromEntries(events.filter((e) => circuit.parts.has(e.part)).map((e) => [e.part, nameOf(circuit, e.part)])),
    bound,
    ...(chatters && { endedBy: chatters.parts }),
  };
}

/** What a part is called, without its id. */
function nameOf(circuit: Circuit, id: string): string {
  const part = circuit.parts.get(id);
  return part?.name ?? part?.kind.title ?? id;
}

function difference(at: OperatingPoint, plus: string, minus: string): number | null {
  const [a, b] = [voltsAt(at, plus), voltsAt(at, minus)];
  return a === undefined || a === null || b === undefined || b === null ? null : a - b;
}

/** Whether a load's verdict changes in the round that closes with this sample. */
function varies(samples: readonly Sample[], closing: Sample, load: number): boolean {
  const round = samples.filter((s) => s.t >= closing.roundFrom! && s.t <= closing.t);
  return round.some((s) => s.loads[load]!.verdict !== closing.loads[load]!.verdict);
}

/** Points on a straight run say nothing: only its ends are kept. */
function curveOf(samples: readonly Sample[], quantityOf: (sample: Sample) => number | null): Curve {
  const points: { t: number; value: number | null }[] = [];
  for (const sample of samples) {
    const value = quantityOf(sample);
    const [before, last] = [points.at(-2), points.at(-1)];
    if (before && last && before.value === last.value && last.value === value) points.pop();
    points.push({ t: sample.t, value });
  }
  return points;
}

/** Of two samples at one time the later holds from there on. */
function stretchesOf<W extends string>(samples: readonly Sample[], wordOf: (sample: Sample) => W, end: number): readonly Stretch<W>[] {
  const found: { from: number; to: number; word: W }[] = [];
  for (const sample of samples) {
    const word = wordOf(sample);
    if (found.at(-1)?.from === sample.t) found.pop();
    const last = found.at(-1);
    if (last?.word === word) last.to = end;
    else {
      if (last) last.to = sample.t;
      found.push({ from: sample.t, to: end, word });
    }
  }
  return found;
}

/** The speed is known in closed form between samples: it is drawn so, not straight. */
function speedOf(samples: readonly Sample[]): Curve {
  const points: { t: number; value: number }[] = [];
  for (const [k, { t, motion, fed }] of samples.entries()) {
    points.push({ t, value: motion.speed });
    const gap = (samples[k + 1]?.t ?? t) - t;
    if (gap < 0.02 || (motion.speed === 0 && !fed.cranks)) continue;
    const moving = Math.min(gap, speedSettles_s);
    for (let n = 1; n < speedPoints; n++) {
      const seconds = (moving * n) / speedPoints;
      points.push({ t: t + seconds, value: engineAfter(motion, fed, seconds).speed });
    }
    if (gap > moving) points.push({ t: t + moving, value: engineAfter(motion, fed, moving).speed });
  }
  return points;
}

/** What a played story shows at one time: for a needle, an engine and a list of loads beside the chart. */
export type PlayInstant = {
  readonly t: number;
  /** Degrees of key travel, and the way it turned last; absent without a key switch. */
  readonly angle?: number;
  readonly came: 'up' | 'back';
  readonly engine: EngineWord | '';
  readonly speed: number;
  readonly supplies: readonly { readonly id: string; readonly volts: number | null }[];
  readonly loads: readonly { readonly id: string; readonly verdict: LoadSeen['verdict'] }[];
  /** The step of the story that is told, and how many events have been. */
  readonly step: number;
  readonly events: number;
};

/** The story at a time; clamped to its ends. Cost: linear in the points. */
export function playAt(view: PlayView, t: number): PlayInstant {
  const travel = view.key?.travel ?? [];
  const turns = travel.filter((c, k) => c.t <= t && k > 0 && c.angle !== travel[k - 1]!.angle);
  const next = travel.findIndex((c) => c.t > t);
  const turning = next > 0 ? travel[next]!.angle - travel[next - 1]!.angle : 0;
  const last = turns.at(-1);
  const came = turning !== 0 ? turning : last ? last.angle - travel[travel.lastIndexOf(last) - 1]!.angle : 0;
  const angle = valueAt(
    travel.map((c) => ({ t: c.t, value: c.angle })),
    t,
  );
  const first = view.steps[0]?.t ?? 0;
  return {
    t,
    ...(angle !== null && { angle }),
    came: came < 0 ? 'back' : 'up',
    engine: wordAt(view.engine?.stretches ?? [], t) ?? '',
    speed: valueAt(view.engine?.speed ?? [], t) ?? 0,
    supplies: view.supplies.map(({ id, volts }) => ({ id, volts: valueAt(volts, t) })),
    loads: view.loads.map(({ id, stretches }) => ({ id, verdict: wordAt(stretches, t) ?? 'dead' })),
    step: Math.max(0, view.steps.filter((s) => s.t <= Math.max(t, first)).length - 1),
    events: view.events.filter((e) => e.t <= t).length,
  };
}

export function wordAt<W extends string>(stretches: readonly Stretch<W>[], t: number): W | undefined {
  return (stretches.filter((s) => s.from <= t).at(-1) ?? stretches[0])?.word;
}

/** Straight between points; of two at one time the later. null where nothing is known. */
export function valueAt(curve: Curve, t: number): number | null {
  const after = curve.findIndex((p) => p.t > t);
  if (after < 0) return curve.at(-1)?.value ?? null;
  const [a, b] = [curve[after - 1], curve[after]!];
  if (!a) return b.value;
  if (a.value === null || b.value === null) return a.value;
  return a.value + ((b.value - a.value) * (t - a.t)) / (b.t - a.t);
}
