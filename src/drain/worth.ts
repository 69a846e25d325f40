import { type Branching, informationBits } from '../diagnose/bayes.ts';
import type { Candidate } from '../diagnose/candidates.ts';
import { amperesTolerance, meterWidth, ohmsTolerance } from '../diagnose/likelihood.ts';
import type { Prediction, Predictor } from '../diagnose/predict.ts';
import type { Fault } from '../faults/fault.ts';

/** A set of faults that may be in, with its share of the belief; `state` is the question's answer if it is. */
export type Share = { readonly faults: readonly Fault[]; readonly mass: number; readonly state: number };

type Piece = { readonly label: string; readonly at: number; readonly width: number; readonly weight: number; readonly state: number };

/**
 * Bits that a reading tells about a question: which suspect it is, or whether it is one of them.
 *
 * Values that the instrument would not tell apart are one outcome: sorted, they are cut where the gap is wider than
 * both tolerances. Across a fuse that is half a step of 0.1 mV and the fuse's own spread.
 *
 * @param states how many answers the question has
 */
export function bitsOf(predictor: Predictor, candidate: Candidate, shares: readonly Share[], states: number): number {
  const pieces = shares.flatMap(({ faults, mass, state }) =>
    predictor.expected(faults, candidate).map(({ share, is }): Piece => ({ ...pieceOf(is), weight: mass * share, state })),
  );
  return informationBits(outcomesOf(pieces, states), massOf(shares, states));
}

function massOf(shares: readonly Share[], states: number): Float64Array {
  const mass = new Float64Array(states);
  for (const s of shares) mass[s.state]! += s.mass;
  return mass;
}

function outcomesOf(pieces: readonly Piece[], states: number): readonly Branching[] {
  const bins: { label: string; to: number; width: number; probability: number; shares: Float64Array }[] = [];
  const put = (p: Piece, bin: (typeof bins)[number] | undefined) => {
    const here = bin ?? { label: p.label, to: p.at, width: p.width, probability: 0, shares: new Float64Array(states) };
    if (!bin) bins.push(here);
    here.to = p.at;
    here.width = p.width;
    here.probability += p.weight;
    here.shares[p.state]! += p.weight;
  };
  const values = pieces.filter((p) => p.label === '').sort((a, b) => a.at - b.at);
  for (const p of values) {
    const last = bins.at(-1);
    put(p, last && p.at - last.to <= p.width + last.width ? last : undefined);
  }
  for (const p of pieces)
    if (p.label !== '')
      put(
        p,
        bins.find((b) => b.label === p.label),
      );
  return bins;
}

function pieceOf(is: Prediction): Omit<Piece, 'weight' | 'state'> {
  switch (is.of) {
    case 'load':
      return { label: is.verdict, at: 0, width: 0 };
    case 'volts': {
      const volts = is.volt ?? 0;
      return { label: '', at: volts, width: meterWidth(volts, is.wide, is.shunt) };
    }
    case 'amperes':
      return { label: '', at: is.ampere, width: amperesTolerance(is.ampere, is.drift) };
    case 'ohms':
      return is.ohm > 1e6 ? { label: 'open', at: 0, width: 0 } : { label: '', at: is.ohm, width: ohmsTolerance(is.ohm) };
    default:
      return { label: 'seen', at: 0, width: 0 };
  }
}
