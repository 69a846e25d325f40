import { scaleLinear } from 'd3-scale';
import type { PlayView } from './playView.ts';

/** Times of a story laid out on a line: even within each step of the story. */
export type TimeLine = {
  /** Place of a time on the line; not clamped. */
  readonly at: (t: number) => number;
  /** Time at a place. */
  readonly back: (place: number) => number;
  /** False when long steps are drawn shorter than they are, so that the short ones can be seen. */
  readonly toScale: boolean;
  /** Bounds of the steps: start of each, then the end. */
  readonly bounds: readonly number[];
};

/** When the longest step is this many times all others together, the line is not to scale. */
const lopsided = 10;
/** Then a step is as wide as this power of its time. */
const power = 0.25;

/** @param from,to ends of the line: characters or pixels */
export function timeLine({ steps, seconds }: Pick<PlayView, 'steps' | 'seconds'>, from: number, to: number): TimeLine {
  const first = steps[0]?.t ?? 0;
  const end = first + seconds;
  const bounds = [...new Set([...steps.map((s) => s.t), end])];
  if (bounds.length < 2) bounds.push(first + 1);
  const lengths = bounds.slice(1).map((b, k) => b - bounds[k]!);
  const longest = Math.max(...lengths);
  const all = lengths.reduce((sum, l) => sum + l, 0);
  const toScale = lengths.length === 1 || longest <= lopsided * (all - longest);
  const widths = toScale ? lengths : lengths.map((l) => l ** power);
  const sum = widths.reduce((total, w) => total + w, 0);
  const places = [from];
  for (const width of widths) places.push(places.at(-1)! + ((to - from) * width) / sum);
  const scale = scaleLinear(bounds, places);
  return { at: (t) => scale(t), back: (place) => scale.invert(place), toScale, bounds };
}

/** A time of a story as people read it: `2.56 s`, `3 min 20 s`, `2 d 7 h 39 min`. */
export function timeText(seconds: number): string {
  if (seconds < 60) return `${seconds.toFixed(2)} s`;
  const whole = Math.round(seconds);
  const [d, h, min, s] = [Math.floor(whole / 86_400), Math.floor(whole / 3600) % 24, Math.floor(whole / 60) % 60, whole % 60];
  if (d > 0) return `${d} d ${h} h ${min} min`;
  return h > 0 ? `${h} h ${min} min` : `${min} min ${s} s`;
}
