import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { keyWord } from './playKey.ts';
import { type TimeLine, timeLine, timeText } from './playTime.ts';
import type { Curve, LoadStrip, PlayView, Stretch } from './playView.ts';
import { textWidth } from './textWidth.ts';

/** A lane with a curve in it, px. */
export type CurveLane = {
  readonly is: 'curve';
  readonly title: string;
  readonly unit: string;
  readonly top: number;
  readonly height: number;
  /** SVG path; broken where nothing is known. */
  readonly path: string;
  readonly ticks: readonly { readonly y: number; readonly text: string }[];
};

/** A lane of bars, one for each stretch of time in which a word holds, px. */
export type StripLane = {
  readonly is: 'strip';
  readonly title: string;
  readonly top: number;
  readonly height: number;
  readonly bars: readonly {
    readonly x: number;
    readonly width: number;
    readonly word: string;
    readonly from: number;
    readonly to: number;
  }[];
};

/** A strip chart laid out: plain numbers and paths. */
export type PlayChart = {
  readonly width: number;
  readonly height: number;
  /** Where time begins and ends, px. */
  readonly left: number;
  readonly right: number;
  readonly time: TimeLine;
  /** Steps of the story along the top; those without room for their words have none. */
  readonly marks: readonly { readonly x: number; readonly text: string }[];
  /** Times along the bottom. */
  readonly times: readonly { readonly x: number; readonly text: string; readonly anchor: 'start' | 'end' }[];
  readonly lanes: readonly (CurveLane | StripLane)[];
};

const side = 176;
const head = 22;
const foot = 24;
const gap = 14;
const curveHeight = 64;
const stripHeight = 16;
const labelSize = 12;
/** A file that is opened elsewhere may be set in a wider fallback face. */
const roomier = 1.2;

/**
 * Lays the strip chart of a story out: key angle, engine, volts of the supplies and of the chosen terminals, and a
 * strip for every load on which anything happens.
 *
 * @param width px, at least 320
 */
export function playChart(view: PlayView, width: number): PlayChart {
  const [left, right] = [side, Math.max(320, width) - 12];
  const time = timeLine(view, left, right);
  const lanes: (CurveLane | StripLane)[] = [];
  let top = head + gap;
  const curve = (title: string, unit: string, points: Curve, ticks?: readonly { readonly value: number; readonly text: string }[]) => {
    lanes.push(curveLane(title, unit, points, time, top, ticks));
    top += curveHeight + gap;
  };
  const strip = (title: string, stretches: readonly Stretch[]) => {
    lanes.push(stripLane(title, stretches, time, top));
    top += stripHeight + 4;
  };
  if (view.key) {
    const { travel, positions } = view.key;
    const end = time.bounds.at(-1)!;
    const corners = [...travel, ...travel.slice(-1).map((c) => ({ ...c, t: end }))];
    curve(
      'Key',
      '°',
      corners.map((c) => ({ t: c.t, value: c.angle })),
      positions.map((p) => ({ value: p.angle, text: p.name })),
    );
  }
  if (view.engine) {
    curve('Engine speed', '1/min', view.engine.speed);
    strip('Engine', view.engine.stretches);
    top += gap - 4;
  }
  for (const { id, name, volts } of view.supplies) curve(`${id} ${name}`, 'V', volts);
  for (const { terminal, volts } of view.terminals) curve(terminal, 'V', volts);
  for (const load of changing(view)) strip(`${load.id} ${load.name}`, load.stretches);
  return {
    width: Math.max(320, width),
    height: top + foot,
    left,
    right,
    time,
    marks: spaced(stepMarks(view, time), right),
    times: timeMarks(time, right),
    lanes,
  };
}

/** Loads on which anything happens in the story. */
export const changing = (view: PlayView): readonly LoadStrip[] => view.loads.filter((l) => l.stretches.length > 1);

function curveLane(
  title: string,
  unit: string,
  points: Curve,
  time: TimeLine,
  top: number,
  named?: readonly { readonly value: number; readonly text: string }[],
): CurveLane {
  const values = [
    ...points.flatMap((p) => (p.value === null ? [] : [Math.round(1000 * p.value) / 1000])),
    ...(named ?? []).map((n) => n.value),
  ];
  const [low, high] = [Math.min(...values, Number.POSITIVE_INFINITY), Math.max(...values, Number.NEGATIVE_INFINITY)];
  const scale = scaleLinear(low < high ? [low, high] : [Math.min(0, low), Math.max(1, high)], [top + curveHeight - 2, top + 2]);
  if (!named) scale.nice(3);
  const ticks = named ?? scale.ticks(3).map((value) => ({ value, text: String(value) }));
  const path = line<Curve[number]>()
    .defined((p) => p.value !== null)
    .x((p) => time.at(p.t))
    .y((p) => scale(p.value!))
    .digits(1)(points);
  return {
    is: 'curve',
    title,
    unit,
    top,
    height: curveHeight,
    path: path ?? '',
    ticks: apart(ticks.map(({ value, text }) => ({ y: scale(value), text }))),
  };
}

function stripLane(title: string, stretches: readonly Stretch[], time: TimeLine, top: number): StripLane {
  const bars = stretches.map(({ from, to, word }) => {
    const [x, end] = [time.at(from), time.at(to)];
    return { x, width: Math.max(1, end - x), word, from, to };
  });
  return { is: 'strip', title, top, height: stripHeight, bars };
}

/** Steps that begin at one time stand together. */
function stepMarks(view: PlayView, time: TimeLine): readonly { readonly x: number; readonly text: string }[] {
  const starts = [...new Set(view.steps.map((s) => s.t))];
  return starts.map((t) => {
    const texts = view.steps.filter((s) => s.t === t).map((s) => s.text);
    return { x: time.at(t), text: texts.join(', ') };
  });
}

/** The end of the story is always told, at the right. */
function timeMarks(time: TimeLine, right: number): PlayChart['times'] {
  const end = timeText(time.bounds.at(-1)!);
  const starts = time.bounds.slice(0, -1).map((t) => ({ x: time.at(t), text: timeText(t), anchor: 'start' as const }));
  const room = right - textWidth(end, labelSize, 400) - 8;
  return [...spaced(starts, room), { x: right, text: end, anchor: 'end' }];
}

/** Texts beside each other, those left out that would run into the one before or over the edge. */
function spaced<T extends { readonly x: number; readonly text: string }>(marks: readonly T[], right: number): readonly T[] {
  let end = Number.NEGATIVE_INFINITY;
  return marks.filter(({ x, text }) => {
    const width = roomier * textWidth(text, labelSize, 400);
    if (x < end + 8 || x + width > right) return false;
    end = x + width;
    return true;
  });
}

/** Tick texts that do not lie on each other. */
function apart<T extends { readonly y: number }>(ticks: readonly T[]): readonly T[] {
  const kept: T[] = [];
  for (const tick of ticks) if (kept.every((k) => Math.abs(k.y - tick.y) >= labelSize)) kept.push(tick);
  return kept;
}

/** One sentence for each lane: for readers who do not see the chart. */
export function chartWords(view: PlayView): readonly string[] {
  const turns = view.key?.travel.filter((c, k, all) => all[k + 1]?.angle !== c.angle) ?? [];
  const key = turns.map((c) => `${keyWord(c.angle, view.key!.positions)} at ${timeText(c.t)}`);
  const stretches = (list: readonly Stretch[]) => list.map((s) => `${s.word} from ${timeText(s.from)}`).join(', ');
  return [
    ...(key.length > 0 ? [`Key: ${key.join(', ')}.`] : []),
    ...(view.engine ? [`Engine: ${stretches(view.engine.stretches)}.`] : []),
    ...changing(view).map((l) => `${l.id} ${l.name}: ${stretches(l.stretches)}.`),
  ];
}
