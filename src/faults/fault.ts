import type { FaultMode } from '../circuit/part.ts';
import { quantityText } from '../circuit/quantity.ts';
import type { PartChange } from '../solve/network.ts';
import type { World } from '../solve/positionTable.ts';

/** One fault as it is put in: which part, in which way, how bad. */
export type Fault = {
  /** Canonical: `W7 0.8 Ω`, `S1.30-50 comes and goes 40 %`. Reads back as the same fault. */
  readonly phrase: string;
  readonly part: string;
  readonly mode: FaultMode;
  /** In the unit held inside; 0 where the mode has no figure. */
  readonly detail: number;
};

/** @param detail in the unit held inside; the mode's own default unless told */
export function faultOf(part: string, mode: FaultMode, detail?: number): Fault {
  const amount = detail ?? mode.detail?.default ?? 0;
  const figure = mode.detail === undefined ? [] : [quantityText(amount, mode.detail.dimension, 12)];
  return { phrase: [mode.subject, mode.words, ...figure].filter((w) => w !== '').join(' '), part, mode, detail: amount };
}

/** What a set of faults changes in the circuit, those that come and go being there. */
export function changesOf(faults: readonly Fault[]): readonly PartChange[] {
  return faults.flatMap((f) => f.mode.changes(f.detail).map((change) => ({ part: f.part, change })));
}

/** Faults that come and go at once, beyond which every one more counts as always there: each doubles the worlds. */
const mostAtOnce = 6;

/**
 * The worlds of a set of faults, commonest first: faults that come and go are there in some and not in others,
 * independently of each other, each for its share of the time. Shares sum to 1; a set without such faults is one world.
 */
export function worldsOf(faults: readonly Fault[]): readonly World[] {
  const sometimes = faults.filter((f) => f.mode.sometimes).slice(0, mostAtOnce);
  const always = faults.filter((f) => !sometimes.includes(f));
  let worlds: { share: number; faults: readonly Fault[] }[] = [{ share: 1, faults: always }];
  for (const f of sometimes) {
    const share = Math.min(1, Math.max(0, f.detail));
    worlds = worlds.flatMap((w) => [
      { share: w.share * share, faults: [...w.faults, f] },
      { share: w.share * (1 - share), faults: w.faults },
    ]);
  }
  const inOrder = (list: readonly Fault[]) => faults.filter((f) => list.includes(f));
  return worlds
    .filter((w) => w.share > 0)
    .sort((a, b) => b.share - a.share)
    .map((w) => ({ share: w.share, changes: changesOf(inOrder(w.faults)) }));
}
