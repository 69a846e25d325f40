import type { Circuit } from '../circuit/circuit.ts';
import type { Diagnosis } from '../diagnose/diagnose.ts';
import { findingText } from '../diagnose/findingText.ts';
import { type Strategy, strategies } from '../diagnose/strategies.ts';
import type { NextReading } from '../diagnose/survey.ts';
import type { VerdictState } from '../diagnose/verdict.ts';
import { readingName, readingScene, readingSteps } from './readingWords.ts';

/** How far the search is, in order. The last is reached when the whole table was run again after a repair and nothing was found. */
export const stages = ['Suspected', 'Located', 'Proved', 'Table run again'] as const;
export type Stage = (typeof stages)[number];

export type FindingRow = {
  readonly phrase: string;
  /** One of the findings that cannot stand together, or that nothing explains. */
  readonly clashes: boolean;
  /** One of the readings that prove it. */
  readonly proves: boolean;
};
export type SuspectRow = {
  readonly faults: readonly string[];
  /** Ids of the parts to blame, for the halo on the drawing. */
  readonly parts: readonly string[];
  readonly probability: number;
  /** `38 %`, `under 1 %`. */
  readonly percent: string;
  readonly text: string;
  /** Phrases of the findings that it explains, and that speak against it. */
  readonly fits: readonly string[];
  readonly against: readonly string[];
};
export type GroupRow = {
  /** Indices of `suspects`. */
  readonly suspects: readonly number[];
  readonly text: string;
  /** What tells them apart, when anything within reach does. */
  readonly by?: { readonly reading: string; readonly scene: string };
};
export type OutcomeRow = {
  readonly seen: string;
  readonly probability: number;
  readonly percent: string;
  /** Indices of `suspects` that would still be worth 1 % or more, likeliest first, and what each would then be worth. */
  readonly leaves: readonly number[];
  readonly worth: readonly number[];
  /** The finding to note down when it comes out so; reads back with `readFinding`. */
  readonly finding: string;
};
export type ReadingRow = {
  readonly reading: string;
  readonly scene: string;
  /** One step a line: leads, key, what is switched on. */
  readonly steps: readonly string[];
  /** Terminals that the leads go on, red first; empty for a look. */
  readonly leads: readonly string[];
  readonly minutes: number;
  readonly price: number;
  readonly bits: number;
  readonly outcomes: readonly OutcomeRow[];
  readonly cautions: readonly string[];
};

/** The search as data for any screen: nothing in it is looked up again. */
export type DiagnosisView = {
  readonly stage: Stage;
  readonly verdict: { readonly state: VerdictState; readonly text: string };
  readonly findings: readonly FindingRow[];
  /** Likeliest first. Those below a thousandth are left out unless a group or an outcome names them. */
  readonly suspects: readonly SuspectRow[];
  readonly groups: readonly GroupRow[];
  readonly next: readonly ReadingRow[];
  readonly unexplained: readonly string[];
  /** Measuring, exchanging, trying a known good one: what each is expected to cost, cheapest first. */
  readonly ways: readonly Strategy[];
};

/** Belief from which a suspect is shown, and from which one counts as left by an outcome. */
const shownFrom = 0.001;
const leftFrom = 0.01;
/** Members of a group that are named. */
const mostNamed = 40;

/** @param tableRunAgain after a repair the whole table and the key-off current were as they ought to be */
export function diagnosisView(circuit: Circuit, diagnosis: Diagnosis, tableRunAgain = false): DiagnosisView {
  const { verdict, suspects, findings } = diagnosis;
  const shown = shownSuspects(diagnosis);
  const place = new Map(shown.map((old, k) => [old, k]));
  const said = (set: readonly number[]) => set.map((k) => findings[k]!.phrase);
  return {
    stage: tableRunAgain ? 'Table run again' : verdict.state === 'proved' ? 'Proved' : verdict.state === 'pinned' ? 'Located' : 'Suspected',
    verdict: { state: verdict.state, text: verdict.text },
    findings: findings.map(({ phrase }, k) => ({ phrase, clashes: verdict.unexplained.includes(k), proves: verdict.proof.includes(k) })),
    suspects: shown.map((k): SuspectRow => {
      const s = suspects[k]!;
      return {
        faults: s.faults.map((f) => f.phrase),
        parts: [...new Set(s.faults.map((f) => f.part))],
        probability: s.probability,
        percent: percent(s.probability),
        text: s.text,
        fits: said(s.fits),
        against: said(s.against),
      };
    }),
    groups: diagnosis.groups.map((group): GroupRow => {
      const named = group.members.flatMap((k) => place.get(k) ?? []);
      if (!group.by)
        return { suspects: named, text: 'These cannot be told apart by anything said so far, nor by any reading within reach.' };
      const { candidate } = group.by;
      const by = { reading: readingName(candidate.observable, circuit), scene: readingScene(candidate, circuit) };
      const text = `These cannot be told apart by anything said so far; some of them can by this: ${by.scene}: ${by.reading}.`;
      return { suspects: named, text, by };
    }),
    next: diagnosis.next.map((r) => readingRow(r, circuit, place)),
    unexplained: said(verdict.unexplained),
    ways: verdict.state === 'proved' ? [] : strategies(circuit, diagnosis),
  };
}

function shownSuspects({ suspects, groups, next }: Diagnosis): readonly number[] {
  const wanted = new Set<number>();
  for (const [k, s] of suspects.entries()) if (s.probability >= shownFrom) wanted.add(k);
  for (const g of groups) for (const k of g.members.slice(0, mostNamed)) wanted.add(k);
  for (const r of next) for (const o of r.outcomes) for (const k of left(o)) wanted.add(k);
  return [...wanted].sort((a, b) => a - b);
}

const left = ({ shares, probability }: NextReading['outcomes'][number]): readonly number[] =>
  [...shares.keys()].filter((k) => shares[k]! / probability >= leftFrom).sort((a, b) => shares[b]! - shares[a]!);

/** @param place where each suspect of the diagnosis stands among those shown */
export function readingRow(r: NextReading, circuit: Circuit, place: ReadonlyMap<number, number>): ReadingRow {
  const { candidate } = r;
  const { scene, observable } = candidate;
  return {
    reading: readingName(observable, circuit),
    scene: readingScene(candidate, circuit),
    steps: [...(r.again ? ['Once more, since it does not fit the rest.'] : []), ...readingSteps(candidate, circuit)],
    leads: observable.of === 'volts' || observable.of === 'ohms' ? [observable.at, observable.to] : [],
    minutes: Math.max(0.1, Math.round(r.minutes * 10) / 10),
    price: candidate.price,
    bits: r.bits,
    outcomes: [...r.outcomes]
      .sort((a, b) => b.probability - a.probability)
      .map((o): OutcomeRow => {
        const kept = left(o).filter((k) => place.has(k));
        return {
          seen: o.seen,
          probability: o.probability,
          percent: percent(o.probability),
          leaves: kept.map((k) => place.get(k)!),
          worth: kept.map((k) => o.shares[k]! / o.probability),
          finding: findingText({ scene, observable, seen: rounded(o.as) }, circuit),
        };
      }),
    cautions: candidate.cautions,
  };
}

/** A value as a person would write it down: to the tenth of a volt, three digits otherwise. */
function rounded(seen: NextReading['outcomes'][number]['as']): NextReading['outcomes'][number]['as'] {
  return 'value' in seen && Number.isFinite(seen.value) ? { value: Number(seen.value.toPrecision(3)) } : seen;
}

export function percent(p: number): string {
  if (p > 0.995 && p < 1) return 'over 99 %';
  return p < 0.01 ? 'under 1 %' : `${Math.round(100 * p)} %`;
}
