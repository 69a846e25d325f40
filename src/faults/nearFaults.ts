import { editDistance } from '../circuit/nearNames.ts';
import { faultOf } from './fault.ts';
import type { PartFault } from './faultModes.ts';

/**
 * At most four phrases, nearest first: those that share words with what was said, whatever their order, and among these
 * the ones most like it in letters.
 *
 * @param words what was said after the subject, in small letters
 * @param own   the faults to choose from, as a rule those of one part
 */
export function nearFaults(words: string, own: readonly PartFault[]): readonly string[] {
  const said = wordsOf(words);
  const score = ({ mode }: PartFault): number => {
    const has = wordsOf(mode.words);
    const shared = said.filter((w) => has.includes(w)).length;
    const length = Math.max(1, words.length, mode.words.length);
    return shared - 0.2 * (has.length - shared) + 1 - editDistance(words.slice(0, 80), mode.words.toLowerCase()) / length;
  };
  const ranked = own.map((fault) => ({ fault, score: score(fault) })).sort((a, b) => b.score - a.score);
  return [...new Set(ranked.map(({ fault }) => faultOf(fault.part, fault.mode).phrase))].slice(0, 4);
}

/** Without figures and units: those are how bad it is. */
const wordsOf = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/\s+/)
    .filter((w) => /^\p{L}{2,}/u.test(w));
