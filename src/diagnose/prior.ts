import type { FaultMode } from '../circuit/part.ts';

/** Something in the vehicle's history that makes some faults likelier. Every factor is an estimate, and shown with the suspects. */
export type HistoryRule = {
  readonly id: string;
  /** Matched against the history as written, any case. */
  readonly words: RegExp;
  /** Says why in plain words. */
  readonly because: string;
  /** Factor on the prior weight of a fault mode. */
  readonly factor: (mode: FaultMode) => number;
};

const says = (mode: FaultMode, pattern: RegExp, factor: number) => (pattern.test(`${mode.words} ${mode.text}`) ? factor : 1);

/** Rules of thumb; all common practice, no source, the factors estimates. */
export const historyRules: readonly HistoryRule[] = [
  {
    id: 'added accessory',
    words: /\b(radio|alarm|tracker|tow ?bar|remote|accessor|fitted|added|stereo)/i,
    because: 'a later fitted accessory: the splice first',
    factor: (mode) => says(mode, /wrong|on another terminal|tracking|bridged|short/i, 4),
  },
  {
    id: 'water',
    words: /\b(water|wet\b|damp|flood|washed|salt|leak)/i,
    because: 'water makes leaks and corroded joints',
    factor: (mode) => says(mode, /leak|corro|tracking|bridged|resistance|Ω/i, 4),
  },
  {
    id: 'key ring',
    words: /\b(heavy key|key ?ring|key has to be|jiggl|forced key|stiff lock)/i,
    because: 'a heavy key ring wears the lock, the detent and the drive',
    factor: (mode) => says(mode, /detent|lost motion|spring|lag|sector/i, 5),
  },
  {
    id: 'heat',
    words: /\b(hot\b|warm|smell|burn|melt|smoke)/i,
    because: 'heat comes from a joint or contact that drops volts',
    factor: (mode) => says(mode, /resistance|burnt|Ω|stuck closed|welded/i, 4),
  },
  {
    id: 'long parked',
    words: /\b(parked|stood|stored|barn|years)/i,
    because: 'contacts and earth points corrode while a vehicle stands',
    factor: (mode) => says(mode, /corro|open|resistance|comes and goes|Ω/i, 1.5),
  },
];

/** Factor on a mode's weight from everything said of the vehicle's history, and the rules that spoke. */
export function historyFactor(
  history: readonly string[],
  part: string,
  mode: FaultMode,
): { readonly factor: number; readonly because: readonly string[] } {
  let factor = 1;
  const because: string[] = [];
  for (const rule of historyRules) {
    if (!history.some((line) => rule.words.test(line))) continue;
    const f = rule.factor(mode);
    if (f !== 1) because.push(rule.because);
    factor *= f;
  }
  // A new part is less likely to be at fault, never clear of it: new parts can be bad or wired wrongly.
  const renewed = history.filter((line) => /\b(new|replaced|renewed|changed)\b/i.test(line));
  // Ids hold letters of any script, which `\b` does not know.
  if (renewed.length > 0 && renewed.some((line) => new RegExp(`(?<![\\p{L}\\p{N}_])${part}(?![\\p{L}\\p{N}_])`, 'u').test(line))) {
    factor *= 0.3;
    because.push(`${part} was replaced already: less likely, not cleared`);
  }
  return { factor, because };
}
