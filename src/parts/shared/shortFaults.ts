import type { Source } from '../../circuit/parameter.ts';
import type { FaultMode } from '../../circuit/part.ts';
import { least_ohm, most_ohm } from './seriesFaults.ts';

/** Chafed copper on steel: a few strands that touch hard, Ω (estimate). */
const short_ohm = 0.02;

/**
 * A live terminal that touches the body.
 *
 * @param terminal global: `W7.1`
 */
export function shortToGround(subject: string, terminal: string, what: string, weight: number, source: Source): FaultMode {
  return {
    subject,
    words: 'short to ground',
    text: `${what} touches the body`,
    weight,
    source,
    excludes: `${subject} short to ground`,
    changes: () => [{ do: 'bridge', from: terminal, to: 'ground', ohm: short_ohm }],
  };
}

/** A terminal that touches a wire that is always live. None when the circuit has no such terminal. */
export function shortToFeed(
  subject: string,
  terminal: string,
  feed: string | undefined,
  what: string,
  weight: number,
  source: Source,
): readonly FaultMode[] {
  if (feed === undefined || feed === terminal) return [];
  return [
    {
      subject,
      words: 'short to feed',
      text: `${what} touches a wire that is always live`,
      weight,
      source,
      excludes: `${subject} short to feed`,
      changes: () => [{ do: 'bridge', from: terminal, to: feed, ohm: short_ohm }],
    },
  ];
}

/** Damp or dirt between a terminal and the body. */
export function leakToGround(subject: string, terminal: string, what: string, weight: number, source: Source): FaultMode {
  return {
    subject,
    words: 'leaks',
    detail: { dimension: 'resistance', default: 2000, grades: [50, 2000], min: least_ohm, max: most_ohm, optional: false },
    text: `${what} leaks to the body through damp or dirt`,
    weight,
    source,
    excludes: `${subject} leaks`,
    changes: (ohm) => [{ do: 'bridge', from: terminal, to: 'ground', ohm }],
  };
}

/**
 * A conducting path between two terminals of one part: water, tracking, carbon.
 *
 * @param first,second names within the part; the subject is `S1.15-75`
 */
export function bridged(part: string, first: string, second: string, what: string, weight: number, source: Source): FaultMode {
  const subject = `${part}.${first}-${second}`;
  return {
    subject,
    words: 'bridged',
    detail: { dimension: 'resistance', default: 20, grades: [1, 20, 500], min: least_ohm, max: most_ohm, optional: false },
    text: `${what} ${first} and ${second} are joined by dirt or tracking`,
    weight,
    source,
    excludes: `${subject} bridged`,
    changes: (ohm) => [{ do: 'bridge', from: `${part}.${first}`, to: `${part}.${second}`, ohm }],
  };
}
