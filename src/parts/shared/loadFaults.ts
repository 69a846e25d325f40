import type { Source } from '../../circuit/parameter.ts';
import type { FaultMode } from '../../circuit/part.ts';
import { gradesOf, type SeriesWeights, seriesFaults } from './seriesFaults.ts';

/** Prior weights of a load's own faults; 1 = an ordinary wire breaking. */
export type LoadWeights = SeriesWeights & { readonly shorted: number };

/**
 * Faults of one winding, filament or heating element: open, added resistance (worn brush, bad joint inside), comes
 * and goes, and shorted inside.
 *
 * @param hot_ohm  its working resistance: what is added is graded by it, and a short leaves a fiftieth of it at most
 */
export function loadFaults(
  subject: string,
  element: string,
  what: string,
  hot_ohm: number,
  weights: LoadWeights,
  source: Source,
): readonly FaultMode[] {
  const grades = gradesOf(hot_ohm, 0.1, 0.5, 3);
  const series = seriesFaults(subject, element, what, weights, source, grades);
  return weights.shorted > 0 ? [...series, shorted(subject, element, what, hot_ohm, weights.shorted, source)] : series;
}

/** Bridged inside: what is left is next to nothing, and whatever protects the wire has to go. */
export function shorted(subject: string, element: string, what: string, hot_ohm: number, weight: number, source: Source): FaultMode {
  return {
    subject,
    words: 'shorted',
    text: `${what} is shorted inside`,
    weight,
    source,
    changes: () => [{ do: 'fix', element, ohm: Math.min(0.05, hot_ohm / 50) }],
  };
}

/** Some turns of a winding bridged: less resistance, more current and heat, less pull. */
export function shortedTurns(subject: string, element: string, what: string, hot_ohm: number, weight: number, source: Source): FaultMode {
  return {
    subject,
    words: 'shorted turns',
    text: `${what} has shorted turns and draws too much`,
    weight,
    source,
    changes: () => [{ do: 'fix', element, ohm: 0.5 * hot_ohm }],
  };
}
