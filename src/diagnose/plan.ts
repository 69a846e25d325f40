import type { Circuit } from '../circuit/circuit.ts';
import { usualTools } from './candidates.ts';
import { minutesPerMoney } from './costs.ts';
import { expectedCost, expectedTests, leastCost, type PlanTest, planned, type Tree } from './decisionTree.ts';
import { belief, type DiagnoseOptions } from './diagnose.ts';
import type { Finding } from './finding.ts';
import { distinctOf, worthwhile } from './nextReading.ts';
import { believed, type Held, massOf } from './outcomes.ts';
import { Predictor } from './predict.ts';
import type { NextReading } from './survey.ts';
import type { Suspect } from './suspects.ts';
import { placeName } from './verdict.ts';

/** The whole way from what is known to one place, reading by reading. */
export type Plan = {
  readonly tree: Tree<NextReading>;
  /** The suspects that the tree's masses count, by index. */
  readonly suspects: readonly Suspect[];
  readonly minutes: number;
  readonly readings: number;
  /** Expected minutes of the best of all plans, where there are few enough to try them all. */
  readonly optimum?: number;
};

/** One place is certain at this belief: the plan ends there with its proof. */
const certain = 0.97;
/** Readings that a plan is made of, and how many of them are followed to the end at each step. */
const mostReadings = 80;
const followed = 4;
const deepest = 10;
/** States and readings up to which all plans are tried. */
const smallStates = 12;
const smallReadings = 16;

/**
 * A plan stands for faults that stay: what comes and goes answers one reading otherwise than the next, and a tree of
 * it has no end.
 *
 * @param predictor kept by the caller, so that nothing is solved twice
 */
export function plan(
  circuit: Circuit,
  findings: readonly Finding[],
  options: DiagnoseOptions = {},
  predictor = new Predictor(circuit),
): Plan {
  const { suspects, findings: said } = belief(circuit, findings, options, predictor);
  const steady = suspects.filter((s) => !s.faults.some((f) => f.mode.sometimes));
  const held = weighted(believed(steady, 40, 0.98 * steady.reduce((sum, s) => sum + s.probability, 0)));
  const many = 1 + Math.max(0, ...held.map((h) => h.suspect));
  const mass = massOf(held, many);
  const found = worthwhile(predictor, held, many, said, options.tools ?? usualTools, mostReadings);
  const readings = distinctOf(found).slice(0, mostReadings);
  const tests = readings.map(
    (what): PlanTest<NextReading> => ({ what, cost: what.minutes + what.candidate.price * minutesPerMoney, outcomes: what.outcomes }),
  );
  const places = new Map<string, number>();
  const same = Array.from({ length: many }, (_, k) => {
    const name = placeName(steady[k]!);
    const place = places.get(name) ?? places.size;
    places.set(name, place);
    return place;
  });
  const tree = planned(tests, mass, { certain, same, tried: followed, deepest, followed: 0.005 });
  const small = mass.filter((p) => p > 0).length <= smallStates && tests.length <= smallReadings;
  const best = small ? leastCost(tests, mass, { certain, same }) : undefined;
  return { tree, suspects: steady, minutes: expectedCost(tree), readings: expectedTests(tree), ...(best && { optimum: best.cost }) };
}

/** Masses that sum to one again. */
function weighted(held: readonly Held[]): readonly Held[] {
  const whole = held.reduce((sum, h) => sum + h.mass, 0) || 1;
  return held.map((h) => ({ ...h, mass: h.mass / whole }));
}
