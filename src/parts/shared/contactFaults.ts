import type { Source } from '../../circuit/parameter.ts';
import type { FaultMode } from '../../circuit/part.ts';
import { named, type SeriesWeights, seriesFaults } from './seriesFaults.ts';

/** Prior weights of a contact's faults; 1 = an ordinary wire breaking. */
export type ContactWeights = SeriesWeights & { readonly stuck: number };

/** An ordinary hand switch or relay contact. */
export const ordinaryContact: ContactWeights = { open: 1.5, resistance: 1.5, comesAndGoes: 1, stuck: 0.5 };

/**
 * Faults of one contact: those of any current path, and a welded or jammed contact that stays closed in every condition.
 *
 * @param prefix    words before the mode when the subject is the whole part: `contact` gives `K1 contact stuck closed`; '' for `S1.30-15 stuck closed`
 * @param contact_ohm what a welded contact leaves, Ω
 * @param releases  elements of the same armature that can no longer close once this one is welded
 */
export function contactFaults(
  subject: string,
  prefix: string,
  element: string,
  what: string,
  contact_ohm: number,
  weights: ContactWeights,
  source: Source,
  releases: readonly string[] = [],
): readonly FaultMode[] {
  const modes: FaultMode[] = [...seriesFaults(subject, element, what, weights, source)];
  if (weights.stuck > 0)
    modes.push({
      subject,
      words: 'stuck closed',
      text: `${what} stays closed in every position`,
      weight: weights.stuck,
      source,
      changes: () => [
        { do: 'fix', element, ohm: contact_ohm },
        ...releases.map((other) => ({ do: 'fix', element: other, ohm: Number.POSITIVE_INFINITY }) as const),
      ],
    });
  return prefix === '' ? modes : named(modes, prefix);
}
