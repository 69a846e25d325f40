import type { Circuit } from '../circuit/circuit.ts';
import type { Tree } from '../diagnose/decisionTree.ts';
import type { Plan } from '../diagnose/plan.ts';
import type { NextReading } from '../diagnose/survey.ts';
import { percent } from './diagnosisView.ts';
import { readingName, readingScene } from './readingWords.ts';

/** A plan as data: at each step one reading, at each end what is left. */
export type PlanStep =
  | { readonly is: 'end'; readonly left: readonly { readonly faults: readonly string[]; readonly percent: string }[] }
  | {
      readonly is: 'reading';
      readonly reading: string;
      readonly scene: string;
      readonly minutes: number;
      readonly branches: readonly {
        readonly seen: string;
        readonly percent: string;
        readonly probability: number;
        readonly next: PlanStep;
      }[];
    };

export type PlanView = {
  readonly root: PlanStep;
  readonly minutes: number;
  readonly readings: number;
  /** Expected minutes over those of the best of all plans; absent where these are too many to try. */
  readonly ratio?: number;
};

/** Suspects named at an end. */
const mostLeft = 3;

export function planView(circuit: Circuit, plan: Plan): PlanView {
  const step = (tree: Tree<NextReading>): PlanStep => {
    if (tree.leaf) {
      const order = [...tree.mass.keys()].filter((k) => tree.mass[k]! >= 0.02).sort((a, b) => tree.mass[b]! - tree.mass[a]!);
      return {
        is: 'end',
        left: order
          .slice(0, mostLeft)
          .map((k) => ({ faults: plan.suspects[k]!.faults.map((f) => f.phrase), percent: percent(tree.mass[k]!) })),
      };
    }
    const { candidate, minutes, outcomes } = tree.test.what;
    return {
      is: 'reading',
      reading: readingName(candidate.observable, circuit),
      scene: readingScene(candidate, circuit),
      minutes,
      branches: [...tree.branches]
        .sort((a, b) => b.probability - a.probability)
        .map((b) => ({ seen: outcomes[b.outcome]!.seen, percent: percent(b.probability), probability: b.probability, next: step(b.next) })),
    };
  };
  const ratio = plan.optimum === undefined ? undefined : plan.optimum === 0 ? 1 : plan.minutes / plan.optimum;
  return { root: step(plan.tree), minutes: plan.minutes, readings: plan.readings, ...(ratio !== undefined && { ratio }) };
}

/** `S1.30-15 open at ON 92 %, W11a open 5 %`. */
export const leftText = (step: PlanStep & { is: 'end' }): string =>
  step.left.length === 0 ? 'nothing is left' : step.left.map((l) => `${l.faults.join(' + ') || 'no fault'} ${l.percent}`).join(', ');

/** Minutes and readings of a plan in a sentence. */
export function costText({ minutes, readings, ratio }: PlanView): string {
  const cost = `On average ${readings.toFixed(1)} readings and ${minutes.toFixed(1)} minutes`;
  if (ratio === undefined) return `${cost}. Too many plans to try them all; this one looks ahead from each step to the end.`;
  return `${cost}: ${ratio.toFixed(2)} times the best of all plans.`;
}
