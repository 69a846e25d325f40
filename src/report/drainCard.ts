import type { DrainAnswer } from '../drain/drainAnswer.ts';
import { ampereText } from '../drain/expected.ts';
import type { HypothesisView, Standing } from '../drain/hypothesis.ts';
import type { PlanStep } from '../drain/plan.ts';
import { noticed } from './noticed.ts';
import { calledBy } from './readingWords.ts';

/** The hypothesis as a card: what would be so if it were true, by what it falls, and who else fits. */
export type DrainCard = {
  readonly fault: string;
  readonly says: string;
  readonly verdict: Standing;
  readonly percent: string;
  /** 0..1, for the ring. */
  readonly probability: number;
  /** What one would find, and what the driver would see or feel. */
  readonly ifTrue: readonly string[];
  readonly notices: readonly string[];
  readonly fallsIf: readonly string[];
  readonly decides: PlanStep | undefined;
  readonly held: HypothesisView['held'];
  readonly rivals: readonly { readonly percent: string; readonly probability: number; readonly faults: string; readonly text: string }[];
  readonly text: string;
};

/** Readings named under "if true" and "it falls if". */
const mostReadings = 3;

export function drainCard(answer: DrainAnswer): DrainCard | undefined {
  const { hypothesis: h, circuit } = answer;
  if (!h) return undefined;
  const { predicts } = h;
  // What is unplugged without effect tells nothing about a part that draws.
  const extra = predicts.amperes - predicts.without;
  const acts = (s: PlanStep) => s.way !== 'unplug' || Math.abs((s.supposedValue ?? 0) - predicts.amperes) > 0.003 + 0.2 * extra;
  const differing = answer.plan.filter((s) => s.supposed !== undefined && s.supposed !== s.healthy && s.way !== 'look' && acts(s));
  const alive = predicts.alive.map(
    (l) => `${calledBy(l.id, circuit)} ${l.verdict === 'works' ? 'works' : 'is faintly on'} with the key out`,
  );
  const warm = predicts.warm.slice(0, 3).map((w) => `${calledBy(w.part, circuit)} is warm to the hand (${w.watts.toFixed(1)} W)`);
  const whole =
    predicts.inside > 1e-4
      ? `${ampereText(predicts.inside)} goes round inside the battery: a clamp on its cable still reads ${ampereText(predicts.amperes)}`
      : `the battery cable reads ${ampereText(predicts.amperes)}, not ${ampereText(predicts.without)}`;
  const readings = differing.filter((s) => s.way !== 'clamp').slice(0, mostReadings);
  const sharp =
    predicts.decides && predicts.decides.supposed !== predicts.decides.healthy && !readings.includes(predicts.decides)
      ? [predicts.decides]
      : [];
  const same = (a: PlanStep, b: PlanStep) => a.reading === b.reading;
  const all = [...sharp.filter((s) => !readings.some((r) => same(r, s))), ...readings];
  return {
    fault: h.fault,
    says: h.says,
    verdict: h.verdict,
    percent: percent(h.probability),
    probability: h.probability,
    ifTrue: [whole, ...all.map((s) => readingSays(s, s.supposed ?? s.healthy))],
    notices: [...alive, ...warm, ...(alive.length === 0 ? noticed(predicts.table).slice(0, 3) : [])],
    fallsIf: all.map((s) => readingSays(s, s.healthy)),
    decides: predicts.decides,
    held: h.held,
    rivals: h.rivals.map((r) => ({
      percent: percent(r.probability),
      probability: r.probability,
      faults: r.faults.join(' + ') || 'no fault',
      text: r.text,
    })),
    text: h.text,
  };
}

/** A reading with a figure, as a sentence: `F6 drops 15.9 mV`, `without X2 the battery cable reads 8.9 mA`. */
export function readingSays({ reading, of: { way, observable: o, scene } }: PlanStep, figure: string): string {
  const owner = 'at' in o ? o.at.slice(0, o.at.lastIndexOf('.')) : '';
  switch (way) {
    case 'look':
      return o.of === 'load' ? `${o.load}: ${figure}` : figure;
    case 'fuse drop':
      return `${owner} drops ${figure}`;
    case 'unplug':
      return `without ${scene.apart.join(' and ')} the battery cable reads ${figure}`;
    case 'bench':
      return `${reading}: ${figure}`;
    default:
      return `the cable at ${'at' in o ? o.at : ''} reads ${figure}`;
  }
}

/** A share as it is said: `under 1 %`, `71 %`, `over 99 %`. */
export const percent = (p: number): string => (p < 0.01 ? 'under 1 %' : p > 0.99 ? 'over 99 %' : `${Math.round(100 * p)} %`);
