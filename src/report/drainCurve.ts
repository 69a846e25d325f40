import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { freezesAt } from '../drain/batteryTables.ts';
import { type BatteryTime, chargeAfter } from '../drain/batteryTime.ts';
import { ampereText } from '../drain/expected.ts';
import { hoursText } from './drainWords.ts';

export type CurveLine = {
  readonly is: 'designed' | 'now';
  readonly path: string;
  readonly label: string;
  readonly x: number;
  readonly y: number;
};

/** The battery's charge over the time parked, in a box of `width` by `height`, y downwards. */
export type DrainCurve = {
  readonly width: number;
  readonly height: number;
  readonly unit: 'days' | 'hours';
  readonly xTicks: readonly { readonly x: number; readonly label: string }[];
  readonly yTicks: readonly { readonly y: number; readonly label: string }[];
  readonly lines: readonly CurveLine[];
  /** Between the worst and the best of battery and reading. */
  readonly band: string;
  /** Everything under `y` no longer cranks. */
  readonly noStart: { readonly y: number; readonly label: string };
  /** Where the leading line meets it; absent beyond the right edge. */
  readonly meets: { readonly x: number; readonly y: number; readonly label: string } | undefined;
  readonly axis: string;
  /** Said under the curve when the acid can freeze before the battery is flat. */
  readonly frost: string | undefined;
};

const points = 25;

/**
 * @param now      the current that the answer is about
 * @param designed the healthy vehicle
 */
export function drainCurve(now: BatteryTime, designed: BatteryTime, width = 480, height = 350): DrainCurve {
  const most_h = horizon(now);
  const unit = most_h < 72 ? 'hours' : 'days';
  const per = unit === 'days' ? 24 : 1;
  const x = scaleLinear([0, most_h / per], [0, width]).nice(6);
  const last_h = x.domain()[1]! * per;
  const y = scaleLinear([0, 1], [height, 0]);
  const times = Array.from({ length: points }, (_, k) => (k * last_h) / (points - 1));
  const drawn = line<number>(
    (h) => round(x(h / per)),
    (h) => round(y(h)),
  );
  const pathOf = (b: BatteryTime) => drawn.y((h) => round(y(chargeAfter(b, h).charge)))(times) ?? '';
  const band = area<number>()
    .x((h) => round(x(h / per)))
    .y0((h) => round(y(chargeAfter(now, h).from)))
    .y1((h) => round(y(chargeAfter(now, h).to)));
  const same = Math.abs(now.amperes - designed.amperes) < 1e-4;
  const end = chargeAfter(designed, last_h).charge;
  const lines: CurveLine[] = [
    {
      is: 'designed',
      path: pathOf(designed),
      label: `with ${ampereText(designed.amperes)}: ${Math.round(100 * end)} % after ${hoursText(last_h)}`,
      x: x.range()[1]!,
      y: round(y(end)),
    },
  ];
  if (!same) {
    const half = 0.6 * last_h;
    lines.push({
      is: 'now',
      path: pathOf(now),
      label: `with ${ampereText(now.amperes)}`,
      x: round(x(half / per)),
      y: round(y(chargeAfter(now, half).charge)),
    });
  }
  const floor = now.noStartCharge;
  const meets =
    now.hoursToNoStart <= last_h
      ? { x: round(x(now.hoursToNoStart / per)), y: round(y(floor)), label: `${hoursText(now.hoursToNoStart)}: no start` }
      : undefined;
  const frost = freezesAt(floor);
  return {
    width,
    height,
    unit,
    xTicks: x.ticks(6).map((t) => ({ x: round(x(t)), label: `${t}` })),
    yTicks: [0, 0.25, 0.5, 0.75, 1].map((c) => ({ y: round(y(c)), label: `${100 * c}` })),
    lines,
    band: band(times) ?? '',
    noStart: { y: round(y(floor)), label: `below ${Math.round(100 * floor)} % it no longer cranks at ${now.ambient} °C` },
    meets,
    axis: `% charge, ${Math.round(now.capacity_Ah)} Ah`,
    frost:
      now.ambient <= frost
        ? `At ${Math.round(100 * floor)} % the acid freezes at ${Math.round(frost)} °C: the case may burst before the battery is flat.`
        : undefined,
  };
}

/** Far enough to see the line meet the floor, at least two days, at most two months. */
const horizon = (b: BatteryTime): number => Math.min(24 * 60, Math.max(b.hoursToNoStart < 24 ? 24 : 48, 1.8 * b.hoursToNoStart));

const round = (v: number): number => Math.round(10 * v) / 10;
