import { scaleLinear, scaleLog } from 'd3-scale';
import { area, curveStepAfter, line } from 'd3-shape';
import type { LogAnswer } from '../drain/drainAnswer.ts';
import { ampereText } from '../drain/expected.ts';
import { sinceText } from './drainWords.ts';

/** The measured log as geometry in a box of `width` by `height`, y downwards. */
export type LogChart = {
  readonly width: number;
  readonly height: number;
  readonly xTicks: readonly { readonly x: number; readonly label: string }[];
  readonly yTicks: readonly { readonly y: number; readonly label: string }[];
  readonly unit: 's' | 'min' | 'h';
  /** Least and most of the rows in each pixel column. */
  readonly rows: string;
  /** The levels, as a staircase. */
  readonly levels: string;
  readonly gaps: readonly { readonly x: number; readonly width: number }[];
  /** Steps that were matched to something, with their text. */
  readonly marks: readonly { readonly x: number; readonly y: number; readonly label: string }[];
  readonly logarithmic: boolean;
};

/** Labels on the chart; the list beside it has all. */
const mostMarks = 8;
/** Currents further apart than this are shown on a logarithmic scale. */
const wide = 20;
const least_A = 1e-4;

export function drainLogChart(answer: LogAnswer, width = 900, height = 260): LogChart {
  const { seconds, amperes } = answer.log;
  const end_s = Math.max(1, seconds.at(-1) ?? 1);
  const [unit, per] = end_s < 300 ? (['s', 1] as const) : end_s < 3 * 3600 ? (['min', 60] as const) : (['h', 3600] as const);
  const x = scaleLinear([0, end_s / per], [0, width]);
  const columns = columnsOf(seconds, amperes, x, per, width);
  const most = Math.max(least_A, ...columns.map((c) => c.most));
  const level = Math.max(least_A, Math.min(...answer.levels.map((l) => Math.abs(l.amperes)), most));
  const logarithmic = most / level > wide;
  const y = logarithmic ? scaleLog([level / 2, most * 1.2], [height, 0]).clamp(true) : scaleLinear([0, most * 1.1], [height, 0]).nice(5);
  const at = (a: number) => round(y(logarithmic ? Math.max(a, level / 2) : a));
  const band = area<(typeof columns)[number]>(
    (c) => c.x,
    (c) => at(c.least),
    (c) => at(c.most),
  );
  const stairs = line<{ readonly s: number; readonly a: number }>(
    (l) => round(x(l.s / per)),
    (l) => at(l.a),
  ).curve(curveStepAfter);
  const ends = answer.levels.flatMap((l) => [
    { s: l.from_s, a: l.amperes },
    { s: l.to_s, a: l.amperes },
  ]);
  const biggest = [...answer.matched].sort((a, b) => size(b.step) - size(a.step)).slice(0, mostMarks);
  return {
    width,
    height,
    unit,
    xTicks: x.ticks(8).map((t) => ({ x: round(x(t)), label: `${t}` })),
    yTicks: (logarithmic ? decades(level / 2, most * 1.2) : y.ticks(5)).map((a) => ({ y: at(a), label: ampereText(a) })),
    rows: band(columns) ?? '',
    levels: stairs(ends) ?? '',
    gaps: answer.gaps.map((g) => ({ x: round(x(g.from_s / per)), width: round(x((g.to_s - g.from_s) / per)) })),
    marks: biggest
      .sort((a, b) => a.step.at_s - b.step.at_s)
      .map(({ step, by }) => ({
        x: round(x(step.at_s / per)),
        y: at(step.to_A),
        label: `${sinceText(step.at_s)}: ${by[0] ? `${by[0].part} ` : ''}${ampereText(Math.abs(step.to_A - step.from_A))} ${step.to_A < step.from_A ? 'less' : 'more'}`,
      })),
    logarithmic,
  };
}

const size = (s: { readonly from_A: number; readonly to_A: number }): number => Math.abs(s.to_A - s.from_A);

/** Rows gathered into pixel columns, so that a million of them draw as fast as a thousand. */
function columnsOf(seconds: Float64Array, amperes: Float64Array, x: (t: number) => number, per: number, width: number) {
  const most = Math.max(2, Math.floor(width));
  const columns: { x: number; least: number; most: number }[] = [];
  for (let k = 0; k < seconds.length; k++) {
    const column = Math.min(most, Math.floor(x(seconds[k]! / per)));
    const last = columns.at(-1);
    const a = amperes[k]!;
    if (last?.x === column) {
      if (a < last.least) last.least = a;
      if (a > last.most) last.most = a;
    } else columns.push({ x: column, least: a, most: a });
  }
  return columns;
}

const decades = (from: number, to: number): readonly number[] =>
  Array.from({ length: 12 }, (_, k) => 10 ** (k - 5)).filter((a) => a >= from && a <= to);

const round = (v: number): number => Math.round(10 * v) / 10;
