import { scaleLinear, scaleLog } from 'd3-scale';
import { curveStepAfter, line } from 'd3-shape';

/** Suspects left against minutes, as figures of a debrief hold it. */
export type Course = readonly { readonly minute: number; readonly left: number }[];
/** A numbered point of the apprentice's way. */
export type ChartPoint = { readonly x: number; readonly y: number; readonly number: number; readonly redundant: boolean };

/** Geometry of the debrief chart, px: a line down halves the suspects. */
export type PracticeChart = {
  readonly width: number;
  readonly height: number;
  readonly yours: string;
  readonly technician: string;
  /** Stretches of time in which nothing could be told. */
  readonly wasted: readonly { readonly x1: number; readonly x2: number; readonly y: number; readonly minutes: number }[];
  readonly points: readonly ChartPoint[];
  readonly ends: { readonly yours: readonly [number, number]; readonly technician: readonly [number, number] };
  readonly lines: readonly { readonly y: number; readonly left: number }[];
  readonly ticks: readonly { readonly x: number; readonly minute: number }[];
  readonly box: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
};

const margin = { left: 56, right: 48, top: 20, bottom: 56 };

/** @param steps when each step that could tell something ended, how long it took, and whether it could tell anything */
export function practiceChart(
  yours: Course,
  technician: Course,
  steps: readonly { readonly at: number; readonly minutes: number; readonly left: number; readonly redundant: boolean }[],
  width = 920,
  height = 380,
): PracticeChart {
  const box = { left: margin.left, right: width - margin.right, top: margin.top, bottom: height - margin.bottom };
  const last = Math.max(1, yours.at(-1)?.minute ?? 0, technician.at(-1)?.minute ?? 0);
  const most = Math.max(2, ...yours.map((c) => c.left), ...technician.map((c) => c.left));
  const x = scaleLinear([0, last * 1.04], [box.left, box.right]);
  const y = scaleLog([1, most], [box.bottom, box.top]).base(2);
  const path = line<Course[number]>(
    (c) => x(c.minute),
    (c) => y(c.left),
  ).curve(curveStepAfter);
  const end = (course: Course): readonly [number, number] => [x(course.at(-1)?.minute ?? 0), y(course.at(-1)?.left ?? 1)];
  const halves: number[] = [];
  for (let left = 1; left <= most; left *= 2) halves.push(left);
  return {
    width,
    height,
    yours: path(yours) ?? '',
    technician: path(technician) ?? '',
    wasted: steps
      .filter((s) => s.redundant)
      .map((s) => ({ x1: x(Math.max(0, s.at - s.minutes)), x2: x(s.at), y: y(s.left), minutes: s.minutes })),
    points: steps.map((s, k) => ({ x: x(s.at), y: y(s.left), number: k + 1, redundant: s.redundant })),
    ends: { yours: end(yours), technician: end(technician) },
    lines: halves.map((left) => ({ y: y(left), left })),
    ticks: x.ticks(6).map((minute) => ({ x: x(minute), minute })),
    box,
  };
}
