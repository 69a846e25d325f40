import type { Candidate } from './candidates.ts';
import { amperesTolerance, voltsTolerance } from './likelihood.ts';
import type { Prediction, Predictor } from './predict.ts';
import type { Suspect } from './suspects.ts';

/** One way in which a reading can come out, and which suspects say it would. */
export type Outcome = {
  /** `works`, `about 12.4 V`, `cured` … */
  readonly seen: string;
  readonly probability: number;
  /** Share of each suspect (by index) that predicts this outcome, 0..1. */
  readonly shares: Float64Array;
};

export type Weighted = { readonly suspect: number; readonly mass: number; readonly faults: Suspect['faults'] };

/** Suspects' grades that carry nearly all of the belief, at most `most` of them. */
export function believed(suspects: readonly Suspect[], most = 60): readonly Weighted[] {
  const all = suspects.flatMap((s, suspect) => s.grades.map((g) => ({ suspect, mass: g.share, faults: g.weighed.hypothesis.faults })));
  all.sort((a, b) => b.mass - a.mass);
  const kept: Weighted[] = [];
  let mass = 0;
  for (const w of all) {
    if (kept.length >= most || mass > 0.995) break;
    kept.push(w);
    mass += w.mass;
  }
  return kept.map((w) => ({ ...w, mass: w.mass / mass }));
}

/**
 * How a candidate could come out. Words are taken as they are; values that an instrument would not tell apart are one
 * outcome: sorted, they are cut where the gap is wider than both tolerances.
 */
export function outcomesOf(predictor: Predictor, candidate: Candidate, held: readonly Weighted[], suspects: number): readonly Outcome[] {
  const parts: { label: string; at: number; width: number; weight: number; suspect: number }[] = [];
  for (const h of held)
    for (const { share, is } of predictor.predict(h.faults, candidate.scene, candidate.observable))
      for (const piece of pieces(is)) parts.push({ ...piece, weight: h.mass * share * piece.chance, suspect: h.suspect });
  const valued = parts.filter((p) => p.label === '').sort((a, b) => a.at - b.at);
  const bins: { seen: string; from: number; to: number; members: typeof parts }[] = [];
  for (const p of valued) {
    const last = bins.at(-1);
    if (last && p.at - last.to <= p.width + last.members.at(-1)!.width) {
      last.members.push(p);
      last.to = p.at;
    } else bins.push({ seen: '', from: p.at, to: p.at, members: [p] });
  }
  const unit = candidate.observable.of === 'amperes' ? 'A' : candidate.observable.of === 'ohms' ? 'Ω' : 'V';
  for (const b of bins) b.seen = valueWords(b.from, b.to, unit);
  for (const p of parts) {
    if (p.label === '') continue;
    const bin = bins.find((b) => b.seen === p.label);
    if (bin) bin.members.push(p);
    else bins.push({ seen: p.label, from: 0, to: 0, members: [p] });
  }
  return bins.map(({ seen, members }) => {
    const shares = new Float64Array(suspects);
    for (const m of members) shares[m.suspect]! += m.weight;
    return { seen, probability: members.reduce((sum, m) => sum + m.weight, 0), shares };
  });
}

function pieces(is: Prediction): readonly { label: string; at: number; width: number; chance: number }[] {
  const word = (label: string, chance = 1) => ({ label, at: 0, width: 0, chance });
  switch (is.of) {
    case 'load':
      return [word(is.verdict === 'chatters' ? 'comes and goes' : is.verdict)];
    case 'engine':
      return [word(is.cranks ? (is.alive ? 'fires' : is.slowly ? 'cranks slowly' : 'cranks') : is.alive ? 'runs' : 'still')];
    case 'volts':
      return [{ label: '', at: is.volt ?? 0, width: voltsTolerance(is.volt ?? 0, is.wide), chance: 1 }];
    case 'amperes':
      return [{ label: '', at: is.ampere, width: amperesTolerance(is.ampere), chance: 1 }];
    case 'ohms':
      return is.ohm > 1e6 ? [word('open')] : [{ label: '', at: is.ohm, width: 0.2 + 0.2 * is.ohm, chance: 1 }];
    case 'outcome':
      return Object.entries(is.chance)
        .filter(([label]) => label !== 'changes' || is.chance.cured === undefined || is.chance.cured < is.chance.changes!)
        .map(([label, chance]) => word(label, chance));
  }
}

function valueWords(from: number, to: number, unit: string): string {
  const text = (x: number) =>
    Math.abs(x) < 0.995 && unit === 'A' ? `${Math.round(x * 1000)} mA` : `${x.toFixed(Math.abs(x) < 9.95 ? 1 : 1)} ${unit}`;
  return Math.abs(to - from) < 0.15 ? `about ${text((from + to) / 2)}` : `${text(from)} to ${text(to)}`;
}

/** Bits that a reading is worth: what is known of the outcome by knowing the suspect, I(suspect; outcome). */
export function bitsOf(outcomes: readonly Outcome[], held: readonly Weighted[], suspects: number): number {
  const mass = new Float64Array(suspects);
  for (const h of held) mass[h.suspect]! += h.mass;
  let bits = 0;
  for (const o of outcomes)
    for (let s = 0; s < suspects; s++) {
      const joint = o.shares[s]!;
      if (joint > 0) bits += joint * Math.log2(joint / (o.probability * mass[s]!));
    }
  return Math.max(0, bits);
}
