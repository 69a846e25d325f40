import { ownerOf } from '../circuit/ownerOf.ts';
import { step_min } from '../diagnose/costs.ts';
import type { Finding, Observable } from '../diagnose/finding.ts';
import { findingText } from '../diagnose/findingText.ts';
import { believed, cutOf, massOf, sayingsOf } from '../diagnose/outcomes.ts';
import type { Predictor } from '../diagnose/predict.ts';
import type { NextReading } from '../diagnose/survey.ts';
import { isProofKind } from '../diagnose/verdict.ts';
import type { Fault } from '../faults/fault.ts';
import { readFault } from '../faults/faultPhrase.ts';
import { isReading, mayTell } from './action.ts';
import type { Around, Bench, Step } from './bench.ts';
import { areTwins, beliefInTruth, bestNext, type Insight, insightOf, provedFrom, samePlace } from './insight.ts';
import { type Marks, marksOf } from './marks.ts';
import { type Misconception, misconceptionsShown } from './misconception.ts';
import type { Solving } from './technician.ts';

/** Expected bits under which a reading could not have changed who is suspected. */
const least_bits = 0.01;
/** Findings of one look that are weighed for what it could tell. */
const mostWeighed = 8;

/** A step that could tell something, judged by what was known before it. */
export type Judged = {
  readonly step: Step;
  /** Its place among the bench's steps. */
  readonly index: number;
  /** Bits that it could be expected to bring; 0 where it was asked before. Undefined where the engine does not weigh it. */
  readonly bits: number | undefined;
  readonly redundant: boolean;
  /** The reading at the suspect itself that proves what looks had left. */
  readonly proof: boolean;
  readonly before: number;
  /** Suspects left after it. */
  readonly left: number;
  /** What would have been worth most at that moment. */
  readonly best?: { readonly reading: NextReading['candidate']; readonly bits: number; readonly minutes: number };
  /** Belief in the truth after it reached proof for the first time. */
  readonly certain: boolean;
};

/** `group`: the right part at another place or in another way, or one of two. */
export type Outcome = 'named' | 'group' | 'wrong' | 'given up';
export type Bought = { readonly part: string; readonly needed: boolean; readonly proved: boolean; readonly money: number };

export type Best = { readonly by: 'technician' | 'apprentice'; readonly readings: number; readonly minutes: number };

export type Debrief = {
  readonly outcome: Outcome;
  readonly hidden: readonly Fault[];
  readonly named: readonly string[];
  readonly rivals: number;
  readonly steps: readonly Judged[];
  /** Suspects left against minutes, as the apprentice went. */
  readonly course: Solving['course'];
  /** How the technician went who always takes the reading worth most a minute: a good way, not always the shortest. */
  readonly technician: Solving;
  /** The shorter of the two ways that proved the cause. */
  readonly best: Best;
  /** Minutes and money of the search; repair and the table after it not counted. */
  readonly minutes: number;
  readonly money: number;
  readonly bought: readonly Bought[];
  readonly unsafe: readonly Step[];
  readonly hints: readonly Step[];
  /** The truth held the belief before it was named. */
  readonly proved: boolean;
  /** The whole table was run after the last repair, and all was well. */
  readonly tableAgain: boolean;
  readonly misconceptions: readonly Misconception[];
  readonly marks: Marks;
};

/**
 * The way taken beside the technician's. Every step is judged by what the findings before it implied, not by how it came
 * out: a good reading stays good when it was unlucky. What could not tell anything is left out of the belief, so that
 * it can never help.
 *
 * @param technician how the one who asks the engine went
 * @param heard is told before each step how many are done, of how many
 * Cost: for every step that tells, one belief and one search for the best reading: a second or less each.
 */
export function debriefOf(
  around: Around,
  bench: Bench,
  technician: Solving,
  withBest = true,
  heard?: (done: number, all: number) => void,
): Debrief {
  const { hidden, predictor } = around;
  const { circuit, complaint, faults, tools } = hidden;
  const findings: Finding[] = [...complaint.told];
  const seen = new Set(findings.map(keyOf));
  let insight = insightOf(predictor, findings);
  const rivals = insight.left;
  const course = [{ minute: 0, left: rivals }];
  const steps: Judged[] = [];
  let [certain, searching, boughtUnproved] = [false, true, 0];
  const bought: Bought[] = [];
  let [minutes, money, readings] = [0, 0, 0];
  for (const [index, step] of bench.steps.entries()) {
    heard?.(index, bench.steps.length);
    if (step.action.do === 'repair' && !step.refused) {
      const part = step.action.part;
      const needed = faults.some((f) => f.part === part) && !bought.some((b) => b.part === part);
      bought.push({ part, needed, proved: certain, money: step.money });
      if (!certain) boughtUnproved++;
      // Once everything that is hidden was repaired the search is over: what follows is checking.
      searching = faults.some((f) => !bought.some((b) => b.part === f.part));
    }
    if (searching || isReading(step.action)) minutes += step.minutes;
    if (step.action.do === 'repair' ? !bought.at(-1)?.needed : true) money += step.money;
    const fresh = step.findings.filter((f) => !seen.has(keyOf(f)));
    if (!mayTell(step.action) && fresh.length === 0) continue;
    if (step.trap === 'live-ohms' || step.trap === 'ampere-jack') continue;
    const isWeighed = searching && step.findings.length > 0;
    const bits = isWeighed ? Math.max(0, ...fresh.slice(0, mostWeighed).map((f) => expectedBits(predictor, insight, f))) : undefined;
    // The first reading at the suspect itself is its proof, though looks have left nothing else: a table alone never proves it.
    const proof = isWeighed && certain && fresh.length > 0 && isReading(step.action) && !findings.some(isProofKind) && isAt(step, insight);
    const redundant = searching && !proof && isReading(step.action) && (bits ?? least_bits) < least_bits;
    const before = insight.left;
    const next = withBest && searching && (isReading(step.action) || redundant) ? bestNext(predictor, insight, tools, 1)[0] : undefined;
    const useful = proof || (bits ?? 0) >= least_bits;
    if (useful) {
      for (const f of fresh) {
        seen.add(keyOf(f));
        findings.push(f);
      }
      insight = insightOf(predictor, findings);
    }
    const now: boolean = beliefInTruth(predictor, insight.suspects, faults) >= provedFrom;
    course.push({ minute: step.at + step.minutes, left: insight.left });
    if (searching || isReading(step.action)) readings++;
    steps.push({
      step,
      index,
      bits,
      redundant,
      proof,
      before,
      left: insight.left,
      ...(next && { best: { reading: next.candidate, bits: next.bits, minutes: next.minutes } }),
      certain: now && !certain,
    });
    certain ||= now;
  }
  const named = (bench.named ?? []).flatMap((phrase) => {
    const read = readFault(phrase, circuit);
    return read.ok ? [read.value] : [];
  });
  const outcome = outcomeOf(predictor, named, faults);
  const lastRepair = bench.steps.map((s) => s.action.do).lastIndexOf('repair');
  const tableAgain =
    lastRepair >= 0 &&
    bench.steps.slice(lastRepair).some((s) => s.action.do === 'walk' && s.said.includes('everything is as it ought to be'));
  const proved = certain && boughtUnproved === 0 && findings.some(isProofKind);
  const unsafe = bench.steps.filter((s) => s.trap === 'live-ohms' || s.trap === 'ampere-jack' || s.trap === 'unfused-bridge');
  // A guess that came true, or an unsafe act, shows no way to anybody.
  const isShorter = outcome === 'named' && proved && unsafe.length === 0 && minutes < technician.minutes;
  const best: Best = isShorter
    ? { by: 'apprentice', readings, minutes }
    : { by: 'technician', readings: technician.readings, minutes: technician.minutes };
  const facts = {
    outcome,
    hidden: faults,
    named: bench.named ?? [],
    rivals,
    steps,
    course,
    technician,
    best,
    minutes,
    money,
    bought,
    unsafe,
    hints: bench.steps.filter((s) => s.action.do === 'hint'),
    proved,
    tableAgain,
  };
  return { ...facts, misconceptions: misconceptionsShown(around, bench, facts), marks: marksOf(bench, complaint, facts) };
}

/** Share of what the best reading could tell from which another was worth as much (estimate). */
const asMuch = 0.6;

/**
 * Whether another reading would have been better. Not where this one proved the place, nor where it was worth as much: in all, by
 * the minute, or by what it brought, since nobody is told to do better than what halved the suspects as often as the best would.
 */
export function hadBetter({ step, bits = 0, before, left, best, certain, proof }: Judged): boolean {
  if (!best || certain || proof) return false;
  const brought = Math.log2(before / left);
  const rate = best.bits / (best.minutes + step_min);
  return Math.max(bits, brought) < asMuch * best.bits && bits / (step.minutes + step_min) < rate;
}

/** Taken at the part that is suspected, or at the end of a piece fastened to it. */
function isAt({ findings }: Step, { suspects }: Insight): boolean {
  const parts = new Set(suspects[0]?.faults.map((f) => f.part));
  return findings.some(({ observable: o }) => {
    if (o.of === 'volts') return parts.has(ownerOf(o.at)) || parts.has(ownerOf(o.to));
    return o.of === 'amperes' ? parts.has(ownerOf(o.at)) : 'part' in o && parts.has(o.part);
  });
}

/** The same place asked in the same scene. */
const keyOf = (f: Finding): string =>
  JSON.stringify([f.observable.of === 'ohms' || f.observable.of === 'touch' ? '' : f.scene, f.observable]);

/** What a look or reading could be expected to tell, before it was taken. */
function expectedBits(predictor: Predictor, insight: Insight, { scene, observable }: Finding): number {
  const held = believed(insight.suspects);
  if (held.length < 2) return 0;
  const many = 1 + Math.max(...held.map((h) => h.suspect));
  const candidate = { scene, observable, minutes: 0, price: 0, cautions: [], effort: 1 as const };
  return cutOf(sayingsOf(predictor, candidate, held), massOf(held, many)).bits;
}

function outcomeOf(predictor: Predictor, named: readonly Fault[], hidden: readonly Fault[]): Outcome {
  if (named.length === 0) return 'given up';
  if (samePlace(named, hidden)) return 'named';
  if (named.length === hidden.length && areTwins(predictor, named, hidden)) return 'named';
  return named.some((f) => hidden.some((h) => h.part === f.part)) ? 'group' : 'wrong';
}

/** A reading that could have been taken, in the words of findings without the value. */
export function placeOfReading(reading: NextReading['candidate'], circuit: Around['hidden']['circuit']): string {
  const observable: Observable = reading.observable;
  const words = findingText(
    {
      scene: reading.scene,
      observable,
      seen: observable.of === 'engine' ? { engine: 'still' } : observable.of === 'load' ? { word: 'works' } : { value: 0 },
    },
    circuit,
  );
  if (observable.of === 'volts') return words.replace(/0 V /, 'volts ');
  if (observable.of === 'amperes') return words.replace(/0 A /, 'amperes ');
  if (observable.of === 'ohms') return words.replace(/ 0 Ω$/, '');
  if (observable.of === 'load') return `look at ${words.replace(/ works$/, '').replace(/^(.*): (\S+)$/, '$2, $1')}`;
  return words.replace(/ still$/, '').replace(/: $/, '');
}
