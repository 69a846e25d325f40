import type { Log } from './readLog.ts';

/** A stretch of the log in which the current stays where it is. */
export type Level = { readonly from_s: number; readonly to_s: number; readonly amperes: number; readonly rows: number };
/** From one level to the next. */
export type LogStep = { readonly at_s: number; readonly from_A: number; readonly to_A: number };
/** A draw that comes and goes by about the same amount again and again. */
export type Beat = {
  readonly amperes: number;
  readonly times: number;
  /** Mean time from one coming to the next, and how long it stays, s. */
  readonly every_s: number;
  readonly lasts_s: number;
  /** It comes at even intervals, as a thermostat or a timer makes it. */
  readonly even: boolean;
};
export type Steps = {
  readonly levels: readonly Level[];
  readonly steps: readonly LogStep[];
  readonly beats: readonly Beat[];
  /** Times with no rows, s. */
  readonly gaps: readonly { readonly from_s: number; readonly to_s: number }[];
  /** Scatter of the readings, A. */
  readonly noise: number;
};

/** Smallest step that counts, A: a clamp's last digits wander by as much (estimate). */
const least_A = 0.003;
/** Rows in a row that have to agree before it is a step, not a spike. */
const agree = 3;
/** A pause of this many usual intervals, and at least so many seconds, is a gap. */
const gapFactor = 10;
const gap_s = 2;

/**
 * Levels and steps of a log: a level goes on until three rows in a row differ from it to the same side by more than
 * four times the scatter, 3 mA, or 3 %. One pass; robust to spikes and gaps.
 *
 * Cost: linear, about 10 ns a row.
 */
export function stepsIn({ seconds, amperes }: Pick<Log, 'seconds' | 'amperes'>): Steps {
  const noise = scatter(amperes);
  const bound = (level: number) => Math.max(least_A, 4 * noise, 0.03 * Math.abs(level));
  const levels: { from: number; to: number; sum: number; rows: number }[] = [];
  let here = { from: 0, to: 0, sum: 0, rows: 0 };
  let [aside, side, asideSum] = [0, 0, 0];
  for (let k = 0; k < amperes.length; k++) {
    const a = amperes[k]!;
    const level = here.rows === 0 ? a : here.sum / here.rows;
    const off = a - level;
    const way = Math.abs(off) > bound(level) ? Math.sign(off) : 0;
    if (way === 0) {
      [aside, side, asideSum] = [0, 0, 0];
      here.sum += a;
      here.rows++;
      here.to = k;
      continue;
    }
    if (way !== side) [aside, side, asideSum] = [0, way, 0];
    aside++;
    asideSum += a;
    if (aside < agree) continue;
    if (here.rows > 0) levels.push(here);
    here = { from: k - aside + 1, to: k, sum: asideSum, rows: aside };
    [aside, side, asideSum] = [0, 0, 0];
  }
  if (here.rows > 0) levels.push(here);
  const kept = joined(levels, bound).map(
    (l): Level => ({ from_s: seconds[l.from]!, to_s: seconds[l.to]!, amperes: l.sum / l.rows, rows: l.rows }),
  );
  const steps = kept.slice(1).map((l, k): LogStep => ({ at_s: l.from_s, from_A: kept[k]!.amperes, to_A: l.amperes }));
  return { levels: kept, steps, beats: beatsIn(steps), gaps: gapsIn(seconds), noise };
}

type Run = { from: number; to: number; sum: number; rows: number };

/** A slope makes a run of short levels: those shorter than three times the agreement go with the level that follows. */
function joined(levels: readonly Run[], bound: (level: number) => number): readonly Run[] {
  const kept: Run[] = [];
  for (const [k, level] of levels.entries()) {
    const isShort = level.rows < 3 * agree && k > 0 && k < levels.length - 1;
    const before = kept.at(-1);
    const mean = level.sum / level.rows;
    if (before && Math.abs(before.sum / before.rows - mean) <= bound(mean)) {
      before.sum += level.sum;
      before.rows += level.rows;
      before.to = level.to;
    } else if (!isShort) kept.push({ ...level });
  }
  return kept;
}

/** Scatter from row to row, by the median of the differences: steps do not count. */
function scatter(amperes: Float64Array): number {
  const stride = Math.max(1, Math.floor(amperes.length / 20_000));
  const differences: number[] = [];
  for (let k = 1; k < amperes.length; k += stride) differences.push(Math.abs(amperes[k]! - amperes[k - 1]!));
  differences.sort((a, b) => a - b);
  // 0.6745 makes a median a standard deviation; a difference of two rows scatters by √2 more than one.
  return (differences[Math.floor(differences.length / 2)] ?? 0) / (0.6745 * Math.SQRT2);
}

function gapsIn(seconds: Float64Array): Steps['gaps'] {
  const stride = Math.max(1, Math.floor(seconds.length / 20_000));
  const intervals: number[] = [];
  for (let k = 1; k < seconds.length; k += stride) intervals.push(seconds[k]! - seconds[k - 1]!);
  intervals.sort((a, b) => a - b);
  const usual = intervals[Math.floor(intervals.length / 2)] ?? 0;
  const long = Math.max(gap_s, gapFactor * usual);
  const found: { from_s: number; to_s: number }[] = [];
  for (let k = 1; k < seconds.length; k++)
    if (seconds[k]! - seconds[k - 1]! > long) found.push({ from_s: seconds[k - 1]!, to_s: seconds[k]! });
  return found;
}

/** Steps up of one size, each with its step down: three of them make a beat. */
function beatsIn(steps: readonly LogStep[]): readonly Beat[] {
  const pulses = steps.flatMap((up, k) => {
    const down = steps[k + 1];
    const size = up.to_A - up.from_A;
    return down && size > 0 && Math.abs(down.from_A - down.to_A - size) < 0.2 * size
      ? [{ size, at_s: up.at_s, lasts_s: down.at_s - up.at_s }]
      : [];
  });
  pulses.sort((a, b) => a.size - b.size);
  const beats: Beat[] = [];
  for (let first = 0; first < pulses.length; ) {
    let end = first + 1;
    while (end < pulses.length && pulses[end]!.size < 1.3 * pulses[first]!.size) end++;
    const alike = pulses.slice(first, end).sort((a, b) => a.at_s - b.at_s);
    first = end;
    if (alike.length < 3) continue;
    const apart = alike.slice(1).map((p, k) => p.at_s - alike[k]!.at_s);
    const every_s = mean(apart);
    const wander = Math.sqrt(mean(apart.map((x) => (x - every_s) ** 2)));
    const even = wander < 0.25 * every_s;
    beats.push({ amperes: mean(alike.map((p) => p.size)), times: alike.length, every_s, lasts_s: mean(alike.map((p) => p.lasts_s)), even });
  }
  return beats.sort((a, b) => b.amperes - a.amperes);
}

const mean = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0) / Math.max(1, list.length);
