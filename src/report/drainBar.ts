import { scaleLinear } from 'd3-scale';
import { allowance } from '../drain/allowance.ts';
import type { DrainAnswer } from '../drain/drainAnswer.ts';
import { ampereText } from '../drain/expected.ts';
import { calledBy } from './readingWords.ts';

/** A piece of the bar; `from` and `to` are shares of its length. */
export type BarItem = {
  /** As designed; put in or supposed; read and not explained. */
  readonly is: 'designed' | 'supposed' | 'unexplained';
  readonly part: string | undefined;
  readonly label: string;
  readonly amperes: number;
  readonly from: number;
  readonly to: number;
};

export type DrainBar = {
  readonly most_A: number;
  readonly ticks: readonly { readonly at: number; readonly label: string }[];
  readonly items: readonly BarItem[];
  /** In words above the bar: `8.9 mA as designed: Clock P3 4.0, Radio A1 3.9, …`. */
  readonly designed: string;
  readonly unexplained: string | undefined;
  readonly reading: { readonly at: number; readonly label: string } | undefined;
  readonly allowed: { readonly at: number; readonly amperes: number; readonly label: string };
};

/** Designed draws that are named; the rest are one piece. */
const mostNamed = 6;
/** What is read over the sum by less than this share or this much is within the clamp's error. */
const unsaid = { share: 0.08, ampere: 0.003 } as const;

/** Who draws, as one bar to scale: designed, supposed, not explained, with the reading as a needle and what is allowed as a line. */
export function drainBar(answer: DrainAnswer): DrainBar {
  const { healthy, keyOff, hypothesis, read_A, circuit } = answer;
  const now_A = hypothesis ? hypothesis.predicts.amperes : keyOff.amperes;
  const allowed_A = allowance(healthy.amperes);
  const pieces: Omit<BarItem, 'from' | 'to'>[] = healthy.draws.slice(0, mostNamed).map((d) => ({
    is: 'designed',
    part: d.part,
    label: calledBy(d.part, circuit),
    amperes: d.amperes,
  }));
  const rest = healthy.amperes - pieces.reduce((sum, p) => sum + p.amperes, 0);
  if (rest > 1e-5) pieces.push({ is: 'designed', part: undefined, label: 'others', amperes: rest });
  const more = now_A - healthy.amperes;
  if (more > 1e-4) {
    const label = hypothesis ? `${ampereText(more)} if ${hypothesis.fault}` : `${ampereText(more)} more than designed`;
    pieces.push({ is: 'supposed', part: undefined, label, amperes: more });
  }
  const over = read_A === undefined ? 0 : read_A - now_A;
  const counts = over > Math.max(unsaid.ampere, unsaid.share * now_A);
  if (counts) pieces.push({ is: 'unexplained', part: undefined, label: `${ampereText(over)} not explained`, amperes: over });
  const whole = Math.max(
    allowed_A,
    read_A ?? 0,
    pieces.reduce((sum, p) => sum + p.amperes, 0),
  );
  const scale = scaleLinear([0, 1.05 * whole], [0, 1]).nice(6);
  const most_A = scale.domain()[1]!;
  let at = 0;
  const items = pieces.map((p): BarItem => {
    const from = scale(at);
    at += p.amperes;
    return { ...p, from, to: scale(at) };
  });
  const sound = healthy.draws.slice(0, mostNamed).map((d) => `${calledBy(d.part, circuit)} ${figure(d.amperes)}`);
  return {
    most_A,
    ticks: scale.ticks(6).map((a) => ({ at: scale(a), label: most_A < 1 ? `${Math.round(1000 * a)}` : `${Number(a.toPrecision(3))}` })),
    items,
    designed: `${ampereText(healthy.amperes)} as designed${sound.length > 0 ? `: ${sound.join(', ')}` : ''}`,
    unexplained: counts ? `${ampereText(over)} not explained yet` : undefined,
    reading: read_A === undefined ? undefined : { at: scale(read_A), label: `${ampereText(read_A)} read` },
    allowed: { at: scale(allowed_A), amperes: allowed_A, label: `${ampereText(allowed_A)} allowed` },
  };
}

const figure = (ampere: number): string => (ampere < 0.01 ? (1000 * ampere).toFixed(1) : `${Math.round(1000 * ampere)}`);
