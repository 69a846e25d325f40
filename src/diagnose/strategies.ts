import type { Circuit } from '../circuit/circuit.ts';
import { checkOrder } from './checkOrder.ts';
import { minutesPerMoney } from './costs.ts';
import { expectedCost, type PlanTest, planned } from './decisionTree.ts';
import type { Diagnosis } from './diagnose.ts';
import type { NextReading } from './survey.ts';

/** What a way of working is expected to cost, in money. */
export type Strategy = {
  readonly id: 'measure' | 'swap' | 'donor';
  readonly name: string;
  /** Parts, labour of changing them, and labour of readings. */
  readonly money: number;
  readonly minutes: number;
  /** Chance that a part is bought that was good. */
  readonly wasted: number;
  /** The figures in a sentence. */
  readonly because: string;
};

export type Prices = {
  /** Money an hour of labour, 75 to 150 in price guides (weak). */
  readonly hour: number;
  /** Money for a part by id, over what the circuit knows. */
  readonly parts?: Readonly<Record<string, number>>;
  /** Minutes to change a part by id. */
  readonly minutes?: Readonly<Record<string, number>>;
};

const usualPrices: Prices = { hour: 100 };
/** A part of which nobody knows the price, and how much longer changing takes than reaching (estimates). */
const unknownPrice = 10;
const changeOverReach = 4;
/** A new switch behind a lock with its covers: 60 to 180 minutes (estimate table); nothing is changed quicker than this. */
const leastChange_min = 5;
/** A known good one plugged in for a try, no fitting (estimate). */
const donor_min = 5;

/**
 * What it costs to measure first and then change the right part, to change parts in the cheapest order until the
 * vehicle works, and to plug in a known good one as a test before buying. All by the present belief.
 *
 * Exchanging is a check like any other: parts in order of probability over cost. Joints, wires and ground points cost
 * labour and no part.
 */
export function strategies(circuit: Circuit, { suspects, next }: Diagnosis, prices: Prices = usualPrices): readonly Strategy[] {
  const blame = new Map<string, number>();
  for (const s of suspects) for (const f of s.faults) blame.set(f.part, (blame.get(f.part) ?? 0) + s.probability / s.faults.length);
  const whole = [...blame.values()].reduce((sum, p) => sum + p, 0);
  if (whole === 0) return [];
  const parts = [...blame]
    .sort((a, b) => b[1] - a[1])
    .slice(0, mostParts)
    .map(([id, p]) => ({ id, probability: p / whole, ...changing(circuit, id, prices) }));
  const perMinute = prices.hour / 60;
  const repair = parts.reduce((sum, p) => sum + p.probability * p.money, 0);
  const repair_min = parts.reduce((sum, p) => sum + p.probability * p.minutes, 0);
  // A second look is weighed by odds of its own, which are not the belief that the others part.
  const fresh = next.filter((r) => !r.again);
  const readings = planned(testsOf(fresh), massOf(fresh, suspects.length), { certain: 0.97, tried: 1, deepest: 6 });
  const reading_min = expectedCost(readings);
  const swap = checkOrder(parts.map((p) => ({ probability: p.probability, cost: p.money })));
  const minutesInOrder = checkOrder(parts.map((p) => ({ probability: p.probability, cost: p.minutes }))).cost;
  const first = parts[swap.order[0]!]!;
  const donorOnly = parts.filter((p) => p.bought);
  const tried = donorOnly.sort((a, b) => b.probability - a.probability)[0];
  const found: Strategy[] = [
    {
      id: 'measure',
      name: 'measure, then change the one part',
      money: repair + reading_min * perMinute,
      minutes: repair_min + reading_min,
      wasted: measuredWrong,
      because: `about ${reading_min.toFixed(0)} min of readings, then one repair`,
    },
    {
      id: 'swap',
      name: 'change parts until it works',
      money: swap.cost,
      minutes: minutesInOrder,
      wasted: 1 - first.probability,
      because: `${first.id} first; with ${percent(first.probability)} it is that, else the next`,
    },
  ];
  if (tried) {
    const left = Math.max(0, reading_min) * (1 - tried.probability);
    found.push({
      id: 'donor',
      name: `plug in a known good ${tried.id} as a test`,
      money: repair + (tried.reach + donor_min + left) * perMinute,
      minutes: repair_min + tried.reach + donor_min + left,
      wasted: triedWrong,
      because: `with ${percent(tried.probability)} it cures; a cure moves the plug too, so it is strong evidence and no proof`,
    });
  }
  return found.sort((a, b) => a.money - b.money);
}

/** Share of repairs that buy a good part all the same: after a proof, and after a cure by a donor, which moves the plug too (estimates). */
const measuredWrong = 0.03;
const triedWrong = 0.1;

/** Parts that are thought of being exchanged. */
const mostParts = 12;

function changing(circuit: Circuit, id: string, prices: Prices): { money: number; minutes: number; reach: number; bought: boolean } {
  const part = circuit.parts.get(id)!;
  const access = part.kind.access(part);
  const reach = part.minutes ?? access.minutes;
  const joins = part.kind.isWire === true || (!part.isLoad && !part.kind.varies?.length && !part.kind.supply && !part.kind.settle);
  const price = prices.parts?.[id] ?? access.price ?? (joins ? 1 : unknownPrice);
  const minutes = prices.minutes?.[id] ?? Math.max(leastChange_min, reach * (joins ? 2 : changeOverReach));
  return { money: price + (minutes * prices.hour) / 60, minutes, reach, bought: !joins };
}

const testsOf = (next: readonly NextReading[]): readonly PlanTest<NextReading>[] =>
  next.map((what) => ({ what, cost: what.minutes + what.candidate.price * minutesPerMoney, outcomes: what.outcomes }));

/** Belief per suspect as the readings count it. */
function massOf(next: readonly NextReading[], suspects: number): Float64Array {
  const [first] = next;
  if (!first) return new Float64Array(suspects);
  const mass = new Float64Array(first.outcomes[0]?.shares.length ?? 0);
  for (const o of first.outcomes) for (const [s, x] of o.shares.entries()) mass[s]! += x;
  return mass;
}

const percent = (p: number): string => `${Math.round(100 * p)} %`;
