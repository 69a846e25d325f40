import type { Source } from '../../circuit/parameter.ts';
import type { FaultMode } from '../../circuit/part.ts';

/** Prior weights of the three ways in which a current path suffers; 1 = an ordinary wire breaking. 0 leaves a mode out. */
export type SeriesWeights = { readonly open: number; readonly resistance: number; readonly comesAndGoes: number };

/** Smallest and largest resistance that a circuit may hold, Ω. */
export const least_ohm = 1e-9;
export const most_ohm = 1e12;

/** Grades of added resistance as shares of an ordinary one, Ω, in figures that can be said: two digits. */
export function gradesOf(ohm: number, ...shares: readonly number[]): readonly number[] {
  return shares.map((share) => Number((share * ohm).toPrecision(2)));
}

/**
 * Open, added resistance and comes-and-goes of one element: the three faults that every current path can have.
 * The three exclude each other, because they are one joint in three degrees.
 *
 * @param subject `W7`, `S1.30-15`, `K1.coil`: as people say it
 * @param element local id of the element in the way
 * @param what    what it is, for the sentence: `contact 30-15`
 * @param grades  added ohms that stand for slight, plain and bad; about the share of the load's own resistance that matters
 */
export function seriesFaults(
  subject: string,
  element: string,
  what: string,
  weights: SeriesWeights,
  source: Source,
  grades: readonly number[] = [0.1, 0.5, 3],
): readonly FaultMode[] {
  const modes: FaultMode[] = [
    {
      subject,
      words: 'open',
      text: `${what} is open`,
      weight: weights.open,
      source,
      changes: () => [{ do: 'series', element, ohm: Number.POSITIVE_INFINITY }],
    },
    {
      subject,
      words: '',
      detail: { dimension: 'resistance', default: grades[1] ?? grades[0] ?? 0.5, grades, min: least_ohm, max: most_ohm, optional: false },
      text: `${what} has added resistance`,
      weight: weights.resistance,
      source,
      changes: (ohm) => [{ do: 'series', element, ohm }],
    },
    {
      subject,
      words: 'comes and goes',
      detail: { dimension: 'share', default: 0.4, grades: [0.4], min: 0.01, max: 0.99, optional: true },
      text: `${what} opens from time to time`,
      weight: weights.comesAndGoes,
      source,
      sometimes: true,
      changes: () => [{ do: 'series', element, ohm: Number.POSITIVE_INFINITY }],
    },
  ];
  return modes.filter((m) => m.weight > 0);
}

/** The same modes with words before them, for a piece of a part that has no name of its own: `K1 contact open`, `M1 hold-in open`. */
export function named(modes: readonly FaultMode[], prefix: string): readonly FaultMode[] {
  return modes.map((m) => ({ ...m, words: [prefix, m.words].filter((w) => w !== '').join(' '), excludes: `${m.subject} ${prefix}` }));
}
