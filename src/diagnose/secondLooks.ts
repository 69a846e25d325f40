import { ownerOf } from '../circuit/ownerOf.ts';
import { type Candidate, stagesOf } from './candidates.ts';
import { minutesPerMoney, step_min } from './costs.ts';
import type { Finding } from './finding.ts';
import { cutOf, type Held, massOf, outcomesOf, sayingsOf, unitOf } from './outcomes.ts';
import type { Predictor } from './predict.ts';
import { byWorth, type NextReading } from './survey.ts';
import type { Suspect } from './suspects.ts';

/** How often a thing that does not fit is looked at at most. */
const mostLooks = 3;
/** Minutes to look or read once more where one stands already, and for any step besides (estimates). */
const again_min = 1;
/** Suspects that would explain it, and their share against the leader's: what one looks for here is the leader's own mistake. */
const mostRivals = 12;
const rivalShare = 0.3;

/** Findings that speak against the leader, as often as they may still be looked at. */
export function doubted(suspects: readonly Suspect[], findings: readonly Finding[]): readonly Finding[] {
  const contrary = (suspects[0]?.against ?? []).map((k) => findings[k]!);
  return contrary.filter((f, k) => findings.filter(sameAs(f)).length < mostLooks && contrary.findIndex(sameAs(f)) === k);
}

export function sameAs(a: Pick<Finding, 'scene' | 'observable'>): (b: Pick<Finding, 'scene' | 'observable'>) => boolean {
  const key = JSON.stringify([a.scene, a.observable]);
  return (b) => JSON.stringify([b.scene, b.observable]) === key;
}

/**
 * What the leader leaves over looked at once more: a slip shows itself, a second fault does too. The leader stands
 * against those who would explain it, at odds that do not depend on how unlikely two faults at once are beforehand.
 */
export function secondLooks(predictor: Predictor, suspects: readonly Suspect[], findings: readonly Finding[]): readonly NextReading[] {
  const looks = doubted(suspects, findings).map((f): NextReading | undefined => {
    const k = findings.indexOf(f);
    const rivals = [...suspects.keys()].filter((s) => s > 0 && !suspects[s]!.against.includes(k)).slice(0, mostRivals);
    if (rivals.length === 0) return undefined;
    const held: readonly Held[] = [0, ...rivals].map((s) => ({
      suspect: s,
      mass: s === 0 ? 1 - rivalShare : rivalShare / rivals.length,
      faults: suspects[s]!.faults,
    }));
    const many = 1 + Math.max(...rivals);
    const candidate = lookAgain(predictor, f);
    const cut = cutOf(sayingsOf(predictor, candidate, held), massOf(held, many));
    const worth = cut.bits / (candidate.minutes + candidate.price * minutesPerMoney + step_min);
    return {
      candidate,
      minutes: candidate.minutes,
      bits: cut.bits,
      worth,
      outcomes: outcomesOf(cut, unitOf(candidate), many),
      again: true,
    };
  });
  return looks.flatMap((r) => (r && r.bits > 0 ? [r] : [])).sort(byWorth);
}

/** The look or reading as it was, with what its scene costs and what to beware of there. */
function lookAgain(predictor: Predictor, { scene, observable }: Finding): Candidate {
  const same = sameAs({ scene, observable });
  const stages = stagesOf(predictor);
  const look = stages.flatMap((s) => [...s.looks, ...s.unasked]).find(same);
  if (look) return look;
  const key = JSON.stringify(scene);
  const stage = stages.find((s) => JSON.stringify(s.scene) === key);
  const own = 'part' in observable ? observable.part : 'at' in observable ? ownerOf(observable.at) : '';
  const part = predictor.circuit.parts.get(own);
  const caution = part?.kind.access(part).caution;
  const cautions = [...(stage?.cautions ?? []), ...(caution === undefined ? [] : [caution])];
  const minutes = again_min + (stage?.minutes ?? 0);
  return { scene, observable, minutes, price: 0, cautions, effort: observable.of === 'load' || observable.of === 'engine' ? 0 : 1 };
}
